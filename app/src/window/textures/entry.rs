//! The picture of one plan: what is there of it, what is on its way, what is to be made next.

use std::path::PathBuf;

use egui::{Rect, TextureHandle, pos2};
use sightedge_pictures::{CancelToken, Region, Size, Target};

use super::{About, MOST_WHOLE, Wanted};
use crate::window::workers::{Part, PictureRequest};

/// A request that is not answered yet.
pub(super) struct Pending {
    pub(super) request: PictureRequest,
    pub(super) token: CancelToken,
}

/// How far the first opening of a picture has come.
#[derive(Clone, Copy, PartialEq, Eq, Default)]
pub(super) enum Stage {
    /// Nothing, or only a first look, is there.
    #[default]
    Opening,
    /// The person stopped it.
    Stopped,
    /// The whole picture was there.
    Opened,
}

#[derive(Default)]
pub(super) struct Entry {
    pub(super) path: PathBuf,
    /// Its own size, once known.
    pub(super) picture: Option<Size>,
    pub(super) whole: Option<(Size, TextureHandle)>,
    pub(super) detail: Option<(Rect, Target, TextureHandle)>,
    pub(super) first_look: Option<Pending>,
    pub(super) pending: Option<Pending>,
    pub(super) about_pending: Option<Pending>,
    pub(super) first_look_requested: bool,
    pub(super) about_requested: bool,
    /// Whether what is shown is of the file as it is now, and simulates the vision chosen now.
    pub(super) fresh: bool,
    pub(super) stage: Stage,
    pub(super) opening_since: Option<f64>,
    pub(super) wanted: Option<(Wanted, f64)>,
    pub(super) error: Option<String>,
    pub(super) about: About,
    pub(super) used: u64,
}

impl std::fmt::Debug for Entry {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("Entry").field("path", &self.path).finish_non_exhaustive()
    }
}

impl Entry {
    /// Cancels what is not done; it is requested again once it is wanted.
    pub(super) fn cancel(&mut self) {
        for pending in [&mut self.first_look, &mut self.pending, &mut self.about_pending] {
            if let Some(pending) = pending.take() {
                pending.token.cancel();
                match pending.request.part {
                    Part::FirstLook => self.first_look_requested = false,
                    Part::About => self.about_requested = false,
                    Part::Whole | Part::Detail => {}
                }
            }
        }
    }

    /// What is shown stays until what is to take its place is there.
    pub(super) fn renew(&mut self) {
        self.cancel();
        self.fresh = false;
        self.detail = None;
    }

    pub(super) fn forget(&mut self) {
        self.cancel();
        *self =
            Self { path: std::mem::take(&mut self.path), used: self.used, ..Self::default() };
    }

    /// What is to be made next, if anything.
    pub(super) fn next(&mut self, wanted: Wanted) -> Option<(Part, Target)> {
        let long = wanted.size.width.max(wanted.size.height);
        let own = self.picture.map_or(0, |own| own.width.max(own.height));
        let enough = |size: Size| size == wanted.size || Some(size) == self.picture;
        if long <= MOST_WHOLE {
            self.detail = None;
            let there =
                self.fresh && self.whole.as_ref().is_some_and(|(size, _)| enough(*size));
            return (!there).then_some((Part::Whole, Target::Exact(wanted.size)));
        }
        let whole = wanted.size.fitted(MOST_WHOLE);
        let coarse = self.whole.as_ref().is_some_and(|(size, _)| {
            size.width.max(size.height) >= MOST_WHOLE.min(own.max(1)) / 2
        });
        if !(coarse && self.fresh) {
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

    pub(super) fn region_of(&self, target: &Target) -> Rect {
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
