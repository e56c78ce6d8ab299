//! Pictures on the screen: something at once, then the exact pixels shown, made again when
//! the zoom has settled. Textures go with their plan.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::time::Duration;

use egui::{ColorImage, Rect, TextureHandle, TextureOptions, pos2};
use sightedge_pictures::colour::{Palette, Vision, palette_of, simulate};
use sightedge_pictures::{Preview, Region, Size, Target, Watch};

use crate::canvas::Shown;
use crate::jobs::{DeskId, Jobs, Part};

/// The longer side of the largest texture made of a whole picture, in pixels.
const MOST_WHOLE: u32 = 4096;
/// How long a size must stand before pixels are made for it, in seconds.
const SETTLE: f64 = 0.18;
/// Plans whose pictures stay on the graphics side while they are not in front.
const KEPT: usize = 3;

/// What the canvas shows of a picture.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Wanted {
    /// All of the picture, in pixels of the screen.
    pub size: Size,
    /// What of it is seen, 0 to 1.
    pub seen: Rect,
}

/// The pictures of all open plans.
#[derive(Debug, Default)]
pub struct Textures {
    desks: BTreeMap<DeskId, Entry>,
    clock: u64,
    vision: Option<Vision>,
}

/// What is known of a picture once it is there.
#[derive(Clone, Debug, Default)]
pub struct About {
    /// Its colours.
    pub palette: Option<Palette>,
    /// What is worth saying about its file.
    pub said: Vec<String>,
}

impl std::fmt::Debug for Entry {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("Entry").field("path", &self.path).finish_non_exhaustive()
    }
}

#[derive(Default)]
struct Entry {
    path: PathBuf,
    /// Its own size, once known.
    picture: Option<Size>,
    whole: Option<(Size, TextureHandle)>,
    detail: Option<(Rect, Target, TextureHandle)>,
    pending: Option<(Target, Watch)>,
    asked_detail: Option<(Rect, Target)>,
    first_look_asked: bool,
    wanted: Option<(Wanted, f64)>,
    error: Option<String>,
    about: About,
    used: u64,
}

impl Textures {
    /// Asks for what is wanted, if it is not there or on its way.
    pub fn want(
        &mut self,
        jobs: &mut Jobs,
        context: &egui::Context,
        desk: DeskId,
        path: &Path,
        wanted: Wanted,
    ) {
        self.clock += 1;
        let clock = self.clock;
        let entry = self.desks.entry(desk).or_default();
        entry.used = clock;
        if entry.path != path {
            entry.forget();
            path.clone_into(&mut entry.path);
        }
        if entry.error.is_some() {
            return;
        }
        let now = context.input(|input| input.time);
        if entry.wanted.is_none_or(|(old, _)| old != wanted) {
            entry.wanted = Some((wanted, now));
        }
        let since = entry.wanted.map_or(now, |(_, since)| since);
        let settled = now - since >= SETTLE;
        if !entry.first_look_asked {
            entry.first_look_asked = true;
            let target = Target::Longest(512);
            jobs.picture(desk, path.to_owned(), Part::FirstLook, target, Watch::default());
        }
        let Some((part, target)) = entry.next(wanted) else {
            self.trim();
            return;
        };
        if entry.whole.is_some() && !settled {
            context.request_repaint_after(Duration::from_secs_f64(SETTLE));
            return;
        }
        if let Some((pending, watch)) = &entry.pending {
            if *pending == target {
                return;
            }
            watch.cancel();
        }
        let watch = Watch::default();
        entry.pending = Some((target, watch.clone()));
        if part == Part::Detail {
            entry.asked_detail = Some((entry.region_of(&target), target));
        }
        jobs.picture(desk, path.to_owned(), part, target, watch);
        self.trim();
    }

    /// Takes in what a job brought.
    pub fn take(
        &mut self,
        context: &egui::Context,
        desk: DeskId,
        part: Part,
        target: Target,
        result: Result<Preview, String>,
    ) {
        let Some(entry) = self.desks.get_mut(&desk) else { return };
        let current = entry.pending.as_ref().is_some_and(|(pending, _)| *pending == target);
        if current {
            entry.pending = None;
        }
        match result {
            Ok(mut preview) => {
                entry.picture = Some(preview.picture);
                if entry.about.palette.is_none() {
                    entry.about.palette = palette_of(&preview.rgba, preview.size);
                }
                if let Some(vision) = self.vision {
                    simulate(&mut preview.rgba, vision);
                }
                let texture = load(context, &preview);
                match part {
                    Part::FirstLook if entry.whole.is_some() => {}
                    Part::FirstLook | Part::Whole => {
                        if part == Part::Whole {
                            entry.about.said = preview
                                .findings
                                .iter()
                                .map(sightedge_pictures::Finding::message)
                                .collect();
                        }
                        entry.whole = Some((preview.size, texture));
                    }
                    Part::Detail => {
                        if let Some((region, asked)) = entry.asked_detail
                            && asked == target
                        {
                            entry.detail = Some((region, target, texture));
                        }
                    }
                }
            }
            // Called off, or nothing quick to show: the next one comes.
            Err(_) if part == Part::FirstLook || !current => {}
            Err(error) => entry.error = Some(error),
        }
    }

    /// The textures to paint, the coarser first.
    pub fn shown(&self, desk: DeskId) -> Vec<Shown> {
        let all = Rect::from_min_max(pos2(0.0, 0.0), pos2(1.0, 1.0));
        let Some(entry) = self.desks.get(&desk) else { return Vec::new() };
        let whole = entry.whole.iter().map(|(_, t)| Shown { texture: t.id(), part: all });
        let detail =
            entry.detail.iter().map(|(part, _, t)| Shown { texture: t.id(), part: *part });
        whole.chain(detail).collect()
    }

    /// What is known of a picture.
    pub fn about(&self, desk: DeskId) -> Option<&About> {
        self.desks.get(&desk).map(|entry| &entry.about)
    }

    /// Shows every picture as people with such a vision see it.
    pub fn see_as(&mut self, vision: Option<Vision>) {
        if self.vision != vision {
            self.vision = vision;
            for entry in self.desks.values_mut() {
                entry.forget();
            }
        }
    }

    /// Why there is no picture.
    pub fn error(&self, desk: DeskId) -> Option<&str> {
        self.desks.get(&desk)?.error.as_deref()
    }

    /// How far the picture is, 0 to 1, while there is nothing final to show.
    pub fn progress(&self, desk: DeskId) -> Option<f32> {
        let entry = self.desks.get(&desk)?;
        let (_, watch) = entry.pending.as_ref()?;
        let per_mille = u16::try_from(watch.per_mille()).unwrap_or(1000);
        Some(f32::from(per_mille) / 1000.0)
    }

    /// Makes the picture anew: it changed on disk.
    pub fn reload(&mut self, desk: DeskId) {
        if let Some(entry) = self.desks.get_mut(&desk) {
            entry.forget();
        }
    }

    /// Lets go of a plan's pictures.
    pub fn close(&mut self, desk: DeskId) {
        if let Some(entry) = self.desks.remove(&desk)
            && let Some((_, watch)) = entry.pending
        {
            watch.cancel();
        }
    }

    /// Lets go of the pictures of plans longest not in front.
    fn trim(&mut self) {
        while self.desks.values().filter(|entry| entry.whole.is_some()).count() > KEPT {
            let oldest = self
                .desks
                .iter()
                .filter(|(_, entry)| entry.whole.is_some())
                .min_by_key(|(_, entry)| entry.used)
                .map(|(id, _)| *id);
            let Some(id) = oldest else { return };
            self.close(id);
        }
    }
}

impl Entry {
    fn forget(&mut self) {
        if let Some((_, watch)) = &self.pending {
            watch.cancel();
        }
        *self =
            Self { path: std::mem::take(&mut self.path), used: self.used, ..Self::default() };
    }

    /// What is to be made next, if anything.
    fn next(&mut self, wanted: Wanted) -> Option<(Part, Target)> {
        let long = wanted.size.width.max(wanted.size.height);
        let own = self.picture.map_or(0, |own| own.width.max(own.height));
        let enough = |size: Size| size == wanted.size || Some(size) == self.picture;
        if long <= MOST_WHOLE {
            self.detail = None;
            let there = self.whole.as_ref().is_some_and(|(size, _)| enough(*size));
            return (!there).then_some((Part::Whole, Target::Exact(wanted.size)));
        }
        let whole = wanted.size.fitted(MOST_WHOLE);
        let coarse = self.whole.as_ref().is_some_and(|(size, _)| {
            size.width.max(size.height) >= MOST_WHOLE.min(own.max(1)) / 2
        });
        if !coarse {
            return Some((Part::Whole, Target::Exact(whole)));
        }
        // All there is was made already.
        if self.whole.as_ref().is_some_and(|(size, _)| Some(*size) == self.picture) {
            return None;
        }
        let target = self.detail_target(wanted)?;
        let there = self.detail.as_ref().is_some_and(|(_, made, _)| *made == target);
        (!there).then_some((Part::Detail, target))
    }

    /// The part that is seen and a little round it, at the pixels shown.
    fn detail_target(&self, wanted: Wanted) -> Option<Target> {
        let seen = wanted.seen.expand2(wanted.seen.size() * 0.1);
        let seen = seen.intersect(Rect::from_min_max(pos2(0.0, 0.0), pos2(1.0, 1.0)));
        let own = self.picture?;
        let (pw, ph) = (f64::from(own.width), f64::from(own.height));
        if !(seen.width() > 0.0 && seen.height() > 0.0 && pw > 0.0 && ph > 0.0) {
            return None;
        }
        let region = Region {
            left: f64::from(seen.left()) * pw,
            top: f64::from(seen.top()) * ph,
            width: f64::from(seen.width()) * pw,
            height: f64::from(seen.height()) * ph,
        };
        // Never more pixels than the picture has there.
        let pixels = |share: f32, shown: u32, own: u32| {
            let most = f64::from(share) * f64::from(shown.min(own));
            count(most).clamp(1, 8192)
        };
        let size = Size::new(
            pixels(seen.width(), wanted.size.width, own.width),
            pixels(seen.height(), wanted.size.height, own.height),
        );
        Some(Target::Part(region, size))
    }

    fn region_of(&self, target: &Target) -> Rect {
        let (Target::Part(region, _), Some(own)) = (target, self.picture) else {
            return Rect::ZERO;
        };
        let (pw, ph) = (f64::from(own.width), f64::from(own.height));
        Rect::from_min_max(
            pos2(share(region.left, pw), share(region.top, ph)),
            pos2(share(region.left + region.width, pw), share(region.top + region.height, ph)),
        )
    }
}

#[expect(
    clippy::as_conversions,
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "a count of pixels on a screen"
)]
fn count(pixels: f64) -> u32 {
    pixels.round().max(0.0) as u32
}

#[expect(clippy::as_conversions, clippy::cast_possible_truncation, reason = "a share of 1")]
fn share(part: f64, of: f64) -> f32 {
    (part / of) as f32
}

fn load(context: &egui::Context, preview: &Preview) -> TextureHandle {
    let pixels = |side: u32| usize::try_from(side).unwrap_or(0);
    let size = [pixels(preview.size.width), pixels(preview.size.height)];
    let image = ColorImage::from_rgba_unmultiplied(size, &preview.rgba);
    context.load_texture("picture", image, TextureOptions::LINEAR)
}
