//! Pictures on the screen: something at once, then the exact pixels shown, made again when
//! the zoom has settled. Textures go with their plan.

mod entry;

use std::collections::BTreeMap;
use std::path::Path;
use std::time::Duration;

use egui::{Rect, TextureId, TextureOptions, pos2};
use sightedge_pictures::colour::Vision;
use sightedge_pictures::{CancelToken, Size, Target};

use crate::window::session::SessionId;
pub use crate::window::workers::About;
use crate::window::workers::{Jobs, NoPicture, Part, PictureReply, PictureRequest, Pixels};
use entry::{Entry, Pending, Stage};

/// The longer side of the largest texture made of a whole picture, in pixels.
const MOST_WHOLE: u32 = 4096;
/// How long a size must stand before pixels are made for it, in seconds.
const SETTLE: f64 = 0.18;
/// Plans whose pictures stay on the graphics side while they are not in front.
const KEPT: usize = 3;
/// What takes longer shows itself, in seconds.
const SHOW_AFTER: f64 = 0.3;
/// What takes longer can be stopped, in seconds.
const STOP_AFTER: f64 = 2.0;
/// How often the progress is looked at, in seconds.
const LOOK: f64 = 0.1;

/// What the canvas shows of a picture.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Wanted {
    /// All of the picture, in pixels of the screen.
    pub size: Size,
    /// What of it is seen, 0 to 1.
    pub seen: Rect,
}

/// A texture for a picture: which part of it (0 to 1 across and down) it shows.
#[derive(Clone, Copy, Debug)]
pub struct Shown {
    /// The texture.
    pub texture: TextureId,
    /// The part of the picture it holds.
    pub part: Rect,
}

/// The pictures of all open plans.
#[derive(Debug, Default)]
pub struct Textures {
    sessions: BTreeMap<SessionId, Entry>,
    clock: u64,
    requested: u64,
    vision: Option<Vision>,
}

/// How the first opening of a picture stands; what comes later is not spoken of.
#[derive(Clone, Copy, PartialEq, Debug)]
pub enum Opening {
    /// There is nothing to tell: it is there, or takes no time.
    Quiet,
    /// It takes a while.
    Goes {
        /// How far it is, 0 to 1.
        share: f32,
        /// Whether it takes long enough to be stopped.
        long: bool,
    },
    /// The person stopped it.
    Stopped,
}

/// What of pictures is held for the screen.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub struct Held {
    /// Textures.
    pub textures: usize,
    /// Their bytes.
    pub bytes: usize,
}

impl Textures {
    /// Requests what is wanted, if it is not there or on its way.
    pub fn want(
        &mut self,
        jobs: &mut Jobs,
        context: &egui::Context,
        session: SessionId,
        path: &Path,
        wanted: Wanted,
    ) {
        self.clock += 1;
        let (clock, vision) = (self.clock, self.vision);
        // One is looked at; work for the others would only hold it up.
        for (id, other) in &mut self.sessions {
            if *id != session {
                other.cancel();
            }
        }
        let entry = self.sessions.entry(session).or_default();
        entry.used = clock;
        if entry.path != path {
            entry.forget();
            path.clone_into(&mut entry.path);
        }
        if entry.error.is_some() || entry.stage == Stage::Stopped {
            return;
        }
        let now = context.input(|input| input.time);
        if entry.wanted.is_none_or(|(old, _)| old != wanted) {
            entry.wanted = Some((wanted, now));
        }
        let since = entry.wanted.map_or(now, |(_, since)| since);
        let settled = now - since >= SETTLE;
        let mut request = |part, target| {
            self.requested += 1;
            let request = PictureRequest { part, target, vision, number: self.requested };
            let token = CancelToken::default();
            jobs.picture(session, path.to_owned(), request, token.clone());
            Some(Pending { request, token })
        };
        if !entry.first_look_requested {
            entry.first_look_requested = true;
            entry.first_look = request(Part::FirstLook, Target::Longest(MOST_WHOLE));
        }
        if entry.stage == Stage::Opening {
            entry.opening_since.get_or_insert(now);
            // The progress moves without anyone asking.
            context.request_repaint_after(Duration::from_secs_f64(LOOK));
        }
        if let Some((part, target)) = entry.next(wanted) {
            if entry.whole.is_some() && entry.fresh && !settled {
                context.request_repaint_after(Duration::from_secs_f64(SETTLE));
                return;
            }
            let on_its_way = |p: &Pending| {
                (p.request.part, p.request.target, p.request.vision) == (part, target, vision)
            };
            if entry.pending.as_ref().is_some_and(on_its_way) {
                return;
            }
            if let Some(pending) = entry.pending.take() {
                pending.token.cancel();
            }
            entry.pending = request(part, target);
        } else if !entry.about_requested {
            entry.about_requested = true;
            entry.about_pending = request(Part::About, Target::Longest(1));
        }
        self.trim();
    }

    /// Takes in what came of a request.
    pub fn take(
        &mut self,
        context: &egui::Context,
        session: SessionId,
        request: PictureRequest,
        reply: Result<PictureReply, NoPicture>,
    ) {
        let Some(entry) = self.sessions.get_mut(&session) else { return };
        // What was cancelled meanwhile, or requested another time, comes too late.
        let slot = match request.part {
            Part::FirstLook => &mut entry.first_look,
            Part::Whole | Part::Detail => &mut entry.pending,
            Part::About => &mut entry.about_pending,
        };
        if slot.take_if(|pending| pending.request.number == request.number).is_none() {
            return;
        }
        match reply {
            Ok(PictureReply::About(about)) => entry.about = *about,
            Ok(PictureReply::Pixels(pixels)) => {
                let Pixels { image, size, picture } = *pixels;
                if request.part == Part::FirstLook && entry.stage == Stage::Opened {
                    return;
                }
                entry.picture = Some(picture);
                let texture = context.load_texture("picture", image, TextureOptions::LINEAR);
                if request.part == Part::Detail {
                    let region = entry.region_of(&request.target);
                    entry.detail = Some((region, request.target, texture));
                    return;
                }
                entry.whole = Some((size, texture));
                if request.part == Part::Whole {
                    entry.fresh = true;
                    entry.stage = Stage::Opened;
                }
            }
            // There may be nothing quick to show; the whole picture tells what is wrong.
            Err(NoPicture::Failed(words))
                if matches!(request.part, Part::Whole | Part::Detail) =>
            {
                entry.forget();
                entry.error = Some(words);
            }
            Err(_) => {}
        }
    }

    /// The textures to paint, the coarser first.
    pub fn shown(&self, session: SessionId) -> Vec<Shown> {
        let all = Rect::from_min_max(pos2(0.0, 0.0), pos2(1.0, 1.0));
        let Some(entry) = self.sessions.get(&session) else { return Vec::new() };
        let whole = entry.whole.iter().map(|(_, t)| Shown { texture: t.id(), part: all });
        let detail =
            entry.detail.iter().map(|(part, _, t)| Shown { texture: t.id(), part: *part });
        whole.chain(detail).collect()
    }

    /// What is known of a picture.
    pub fn about(&self, session: SessionId) -> Option<&About> {
        self.sessions.get(&session).map(|entry| &entry.about)
    }

    /// Shows every picture as people with such a vision see it; as it was until that is there.
    pub fn see_as(&mut self, vision: Option<Vision>) {
        if self.vision != vision {
            self.vision = vision;
            self.renew();
        }
    }

    /// Makes all pictures anew for another monitor; as they were until those are there.
    pub fn renew(&mut self) {
        self.sessions.values_mut().for_each(Entry::renew);
    }

    /// Why there is no picture.
    pub fn error(&self, session: SessionId) -> Option<&str> {
        self.sessions.get(&session)?.error.as_deref()
    }

    /// How the opening of a picture stands at `now`, in seconds.
    pub fn opening(&self, session: SessionId, now: f64) -> Opening {
        let Some(entry) = self.sessions.get(&session) else { return Opening::Quiet };
        let (pending, since) = match (entry.stage, &entry.pending, entry.opening_since) {
            (Stage::Opening, Some(pending), Some(since)) => (pending, since),
            (Stage::Stopped, ..) => return Opening::Stopped,
            _ => return Opening::Quiet,
        };
        let took = now - since;
        if took < SHOW_AFTER {
            return Opening::Quiet;
        }
        let per_mille = u16::try_from(pending.token.per_mille()).unwrap_or(1000);
        Opening::Goes { share: f32::from(per_mille) / 1000.0, long: took >= STOP_AFTER }
    }

    /// Stops opening a picture; what is there of it stays.
    pub fn stop(&mut self, session: SessionId) {
        if let Some(entry) = self.sessions.get_mut(&session) {
            entry.cancel();
            entry.stage = Stage::Stopped;
        }
    }

    /// Opens a picture after all.
    pub fn go_on(&mut self, session: SessionId) {
        if let Some(entry) = self.sessions.get_mut(&session) {
            entry.stage = Stage::Opening;
            entry.opening_since = None;
        }
    }

    /// What is held for the screen.
    pub fn held(&self) -> Held {
        let entries = self.sessions.values();
        let textures = entries.flat_map(|entry| {
            let whole = entry.whole.iter().map(|(_, texture)| texture);
            whole.chain(entry.detail.iter().map(|(_, _, texture)| texture))
        });
        textures.fold(Held::default(), |held, texture| Held {
            textures: held.textures + 1,
            bytes: held.bytes + texture.byte_size(),
        })
    }

    /// Makes the picture anew: it changed on disk.
    pub fn reload(&mut self, session: SessionId) {
        if let Some(entry) = self.sessions.get_mut(&session) {
            entry.renew();
            entry.error = None;
            entry.about_requested = false;
            if entry.stage == Stage::Stopped {
                entry.stage = Stage::Opening;
            }
        }
    }

    /// Lets go of a plan's pictures.
    pub fn close(&mut self, session: SessionId) {
        if let Some(mut entry) = self.sessions.remove(&session) {
            entry.cancel();
        }
    }

    /// Lets go of the pictures of plans longest not in front.
    fn trim(&mut self) {
        while self.sessions.values().filter(|entry| entry.whole.is_some()).count() > KEPT {
            let oldest = self
                .sessions
                .iter()
                .filter(|(_, entry)| entry.whole.is_some())
                .min_by_key(|(_, entry)| entry.used)
                .map(|(id, _)| *id);
            let Some(id) = oldest else { return };
            self.close(id);
        }
    }

    /// Cancels all that is not done: the window closes.
    pub fn cancel_all(&mut self) {
        self.sessions.values_mut().for_each(Entry::cancel);
    }
}
