//! Small pictures for lists: made by the hands that make all pictures, when nothing more urgent
//! waits.

use std::path::PathBuf;

use egui::ColorImage;
use sightedge_pictures::{Target, Watch};

use super::lane::Lane;
use super::picture::{Ask, Brought, Decoder, Missed, Part};

/// After every picture of a plan.
const URGENCY: u8 = 0;

/// Where small pictures are asked for.
#[derive(Clone, Debug)]
pub struct Small {
    pub(super) decoder: Decoder,
    pub(super) lane: Lane,
}

impl Small {
    /// Makes a picture no longer than `longest` pixels, unless `watch` is called off before its
    /// turn; `done` gets it in another thread.
    pub fn picture(
        &self,
        path: PathBuf,
        longest: u32,
        watch: Watch,
        done: impl FnOnce(Result<ColorImage, Missed>) + Send + 'static,
    ) {
        let decoder = self.decoder.clone();
        let ask = Ask {
            part: Part::Whole,
            target: Target::Longest(longest),
            vision: None,
            number: 0,
        };
        self.lane.push(URGENCY, move || {
            done(decoder.bring(&path, ask, &watch).and_then(|brought| match brought {
                Brought::Pixels(pixels) => Ok(pixels.image),
                Brought::About(_) => Err(Missed::Nothing),
            }));
        });
    }
}
