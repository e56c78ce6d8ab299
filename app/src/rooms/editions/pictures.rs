//! The works' own pictures, small, beside their names. Only those in sight are made; those that
//! flew by are called off before their turn.

use std::collections::HashMap;
use std::path::{Path, PathBuf};
use std::sync::mpsc::{Receiver, Sender, channel};

use egui::{ColorImage, Context, TextureHandle, TextureOptions};
use sightedge_pictures::Watch;
use sightedge_studio::WorkId;

use crate::jobs::{Missed, Small};

/// As many are kept; the least lately seen go first. At 88 pixels they are 31 kB each.
const MOST: usize = 256;

/// What there is of one.
enum There {
    /// On its way.
    Asked(Watch),
    Shown(TextureHandle),
    /// Why it is not shown.
    Missing(String),
}

/// What the list shows of a work's picture.
pub(super) enum Face<'a> {
    Waiting,
    Picture(&'a TextureHandle),
    /// Why there is none.
    None(&'a str),
}

struct Entry {
    path: PathBuf,
    there: There,
    seen: u64,
}

type Brought = (WorkId, PathBuf, Result<ColorImage, Missed>);

/// All that are known.
pub(super) struct Pictures {
    entries: HashMap<WorkId, Entry>,
    frame: u64,
    sender: Sender<Brought>,
    receiver: Receiver<Brought>,
}

impl Default for Pictures {
    fn default() -> Self {
        let (sender, receiver) = channel();
        Self { entries: HashMap::new(), frame: 0, sender, receiver }
    }
}

impl std::fmt::Debug for Pictures {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("Pictures").field("known", &self.entries.len()).finish_non_exhaustive()
    }
}

impl Pictures {
    /// Takes in what came. Called before the rows of a frame.
    pub(super) fn begin(&mut self, context: &Context) {
        self.frame += 1;
        for (work, path, brought) in self.receiver.try_iter() {
            let Some(entry) = self.entries.get_mut(&work).filter(|entry| entry.path == path)
            else {
                continue;
            };
            entry.there = match brought {
                Ok(image) => {
                    let name = format!("work {}", work.0);
                    There::Shown(context.load_texture(name, image, TextureOptions::LINEAR))
                }
                Err(Missed::Trouble(why)) => There::Missing(why),
                // It was called off after all.
                Err(Missed::Nothing) => {
                    self.entries.remove(&work);
                    continue;
                }
            };
        }
    }

    /// The picture of a work in sight, asked for where it is not there.
    pub(super) fn face(
        &mut self,
        context: &Context,
        small: &Small,
        (work, path): (WorkId, &str),
        longest: u32,
    ) -> Face<'_> {
        if path.is_empty() {
            return Face::None("No picture was noted for this work.");
        }
        let path = Path::new(path);
        let frame = self.frame;
        if self.entries.get(&work).is_some_and(|entry| entry.path != path) {
            self.entries.remove(&work);
        }
        let entry = self.entries.entry(work).or_insert_with(|| {
            let watch = Watch::default();
            let (sender, context, of) = (self.sender.clone(), context.clone(), path.to_owned());
            small.picture(path.to_owned(), longest, watch.clone(), move |brought| {
                // The window may be gone by then.
                if sender.send((work, of, brought)).is_ok() {
                    context.request_repaint();
                }
            });
            Entry { path: path.to_owned(), there: There::Asked(watch), seen: frame }
        });
        entry.seen = frame;
        match &entry.there {
            There::Asked(_) => Face::Waiting,
            There::Shown(texture) => Face::Picture(texture),
            There::Missing(why) => Face::None(why),
        }
    }

    /// Calls off what is out of sight, and keeps no more than so many. Called after the rows.
    pub(super) fn end(&mut self) {
        let frame = self.frame;
        self.entries.retain(|_, entry| match &entry.there {
            There::Asked(watch) if entry.seen != frame => {
                watch.cancel();
                false
            }
            _ => true,
        });
        while self.entries.len() > MOST {
            let oldest = self.entries.iter().min_by_key(|(_, entry)| entry.seen);
            let Some(work) = oldest.map(|(work, _)| *work) else { return };
            self.entries.remove(&work);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::jobs::Jobs;

    fn demo() -> String {
        let assets = Path::new(env!("CARGO_MANIFEST_DIR")).join("../assets/demo/mooring.jpg");
        assets.display().to_string()
    }

    fn wait(pictures: &mut Pictures, context: &Context, small: &Small, of: (WorkId, &str)) {
        for _ in 0..400 {
            pictures.begin(context);
            let there = !matches!(pictures.face(context, small, of, 88), Face::Waiting);
            pictures.end();
            if there {
                return;
            }
            std::thread::sleep(std::time::Duration::from_millis(10));
        }
    }

    #[test]
    fn one_in_sight_is_made_and_one_that_is_missing_says_so() {
        let temp = tempfile::tempdir().unwrap();
        let (context, mut pictures) = (Context::default(), Pictures::default());
        let small = Jobs::new(context.clone()).small();
        let path = temp.path().join("gone.jpg").display().to_string();
        let gone = (WorkId(1), path.as_str());
        wait(&mut pictures, &context, &small, gone);
        let Face::None(why) = pictures.face(&context, &small, gone, 88) else {
            panic!("it is not there")
        };
        assert!(why.contains("gone.jpg"), "{why}");
        let path = demo();
        let there = (WorkId(2), path.as_str());
        wait(&mut pictures, &context, &small, there);
        let face = pictures.face(&context, &small, there, 88);
        let Face::Picture(texture) = face else { panic!("it is there") };
        assert_eq!(texture.size().into_iter().max(), Some(88));
    }

    #[test]
    fn what_flew_by_is_called_off_and_few_are_kept() {
        let path = demo();
        let (context, mut pictures) = (Context::default(), Pictures::default());
        let small = Jobs::new(context.clone()).small();
        pictures.begin(&context);
        for n in 1..=2000 {
            assert!(matches!(
                pictures.face(&context, &small, (WorkId(n), &path), 88),
                Face::Waiting
            ));
        }
        pictures.end();
        assert!(pictures.entries.len() <= MOST);
        pictures.begin(&context);
        pictures.end();
        let asked = |entry: &&Entry| matches!(entry.there, There::Asked(_));
        assert_eq!(pictures.entries.values().filter(asked).count(), 0, "none is in sight");
    }
}
