//! The works' pictures, small: read away from the frame by two hands, and only for the rows in
//! sight. What waits is replaced in each frame, so nothing is read for rows that flew by.

use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};
use std::sync::mpsc::{Receiver, Sender, channel};
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};
use std::time::Duration;

use egui::{
    Align, Align2, ColorImage, Context, FontId, Rect, StrokeKind, TextureHandle, Ui, vec2,
};
use sightedge_studio::NewWork;

use super::lost;
use crate::window::theme;
use crate::window::workers::{Decoder, Missed};

/// The most pictures that are held, some 10 MB of them.
const MOST: usize = 240;
/// The most that are read at once.
const HANDS: usize = 2;
/// How long a row must be in sight before its picture is read, in seconds.
const SETTLE: f64 = 0.1;

/// Names a picture of a size: its content where that is known, else its file.
type Key = (String, u32);

/// One that is to be read.
#[derive(Clone, Debug)]
struct Wish {
    key: Key,
    path: PathBuf,
    sha256: String,
    homes: Vec<PathBuf>,
}

/// What became of one.
enum Kept {
    There(TextureHandle),
    /// Why there is none.
    Missing(String),
}

impl std::fmt::Debug for Kept {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Self::There(texture) => write!(f, "There({:?})", texture.size()),
            Self::Missing(why) => write!(f, "Missing({why:?})"),
        }
    }
}

#[derive(Debug, Default)]
struct Queue {
    waiting: Vec<Wish>,
    /// Begun, and not taken in by a frame yet.
    busy: BTreeSet<Key>,
    /// How many are at work.
    hands: usize,
    /// How many were ever begun.
    registration: usize,
}

type Brought = (Key, Result<ColorImage, String>);

/// The small pictures.
#[derive(Debug)]
pub(super) struct Thumbs {
    decoder: Decoder,
    queue: Arc<Mutex<Queue>>,
    tell: Sender<Brought>,
    told: Receiver<Brought>,
    kept: BTreeMap<Key, (u64, Kept)>,
    clock: u64,
    /// Since when each row in sight has been there that has no picture yet.
    since: BTreeMap<Key, f64>,
    wished: Vec<Wish>,
}

impl Default for Thumbs {
    fn default() -> Self {
        let (tell, told) = channel();
        Self {
            decoder: Decoder::default(),
            queue: Arc::default(),
            tell,
            told,
            kept: BTreeMap::new(),
            clock: 0,
            since: BTreeMap::new(),
            wished: Vec::new(),
        }
    }
}

fn locked(queue: &Mutex<Queue>) -> MutexGuard<'_, Queue> {
    // Nothing is left half done while the lock is held.
    queue.lock().unwrap_or_else(PoisonError::into_inner)
}

impl Thumbs {
    /// Before the rows of a frame: takes in what was read.
    pub(super) fn begin(&mut self, context: &Context, decoder: &Decoder) {
        self.decoder.clone_from(decoder);
        self.clock += 1;
        self.wished.clear();
        for (key, brought) in self.told.try_iter() {
            let kept = match brought {
                Ok(image) => Kept::There(context.load_texture(
                    "work",
                    image,
                    egui::TextureOptions::LINEAR,
                )),
                Err(words) => Kept::Missing(words),
            };
            locked(&self.queue).busy.remove(&key);
            self.kept.insert(key, (self.clock, kept));
        }
    }

    /// Paints a work's picture in `rect`, or what stands for it; says why it is not there.
    /// `homes` are folders in which it may lie where its own place is empty.
    pub(super) fn show(
        &mut self,
        ui: &Ui,
        rect: Rect,
        across: Align,
        work: &NewWork,
        homes: &[PathBuf],
    ) -> Option<&str> {
        let palette = theme::palette(ui);
        let painter = ui.painter();
        let blank = |mark: &str| {
            painter.rect(
                rect,
                2.0,
                palette.field,
                egui::Stroke::new(1.0, palette.line),
                StrokeKind::Inside,
            );
            let font = FontId::proportional(theme::BODY);
            painter.text(rect.center(), Align2::CENTER_CENTER, mark, font, palette.quiet);
        };
        if work.picture.is_empty() {
            blank("");
            return None;
        }
        let key = key(work, pixels(rect.width().max(rect.height()), ui.pixels_per_point()));
        match self.kept.get_mut(&key) {
            Some((used, Kept::There(texture))) => {
                *used = self.clock;
                let size = texture.size_vec2();
                let scale = (rect.width() / size.x).min(rect.height() / size.y);
                let place =
                    Align2([across, Align::Center]).align_size_within_rect(size * scale, rect);
                let all = Rect::from_min_max(egui::Pos2::ZERO, egui::pos2(1.0, 1.0));
                painter.image(texture.id(), place, all, egui::Color32::WHITE);
                None
            }
            Some((used, Kept::Missing(words))) => {
                *used = self.clock;
                blank("?");
                Some(words)
            }
            None => {
                blank("");
                let (path, sha256) = (PathBuf::from(&work.picture), work.sha256.clone());
                self.wished.push(Wish { key, path, sha256, homes: homes.to_vec() });
                None
            }
        }
    }

    /// Looks again for a picture that was not found.
    pub(super) fn look_again(&mut self, work: &NewWork) {
        let name = name(work);
        self.kept.retain(|key, (_, kept)| key.0 != name || !matches!(kept, Kept::Missing(_)));
    }

    /// After the rows of a frame: what is in sight and stays there is read, nothing else.
    pub(super) fn end(&mut self, context: &Context) {
        let now = context.input(|input| input.time);
        let wished = std::mem::take(&mut self.wished);
        let before = std::mem::take(&mut self.since);
        let mut waiting = Vec::new();
        let mut soonest: Option<f64> = None;
        for wish in wished {
            let since = before.get(&wish.key).copied().unwrap_or(now);
            self.since.insert(wish.key.clone(), since);
            let left = since + SETTLE - now;
            if left > 0.0 {
                soonest = Some(soonest.map_or(left, |other| other.min(left)));
            } else {
                waiting.push(wish);
            }
        }
        if let Some(left) = soonest {
            context.request_repaint_after(Duration::from_secs_f64(left));
        }
        let mut queue = locked(&self.queue);
        waiting.retain(|wish| !queue.busy.contains(&wish.key));
        // Taken from the end: the upper rows first.
        waiting.reverse();
        queue.waiting = waiting;
        while queue.hands < HANDS
            && let Some(wish) = queue.waiting.pop()
        {
            queue.take(&wish);
            queue.hands += 1;
            self.start(wish, context.clone());
        }
        drop(queue);
        while self.kept.len() > MOST {
            let oldest = self.kept.iter().min_by_key(|(_, (used, _))| *used);
            let Some(key) = oldest.map(|(key, _)| key.clone()) else { break };
            self.kept.remove(&key);
        }
    }

    /// A hand that reads until nothing waits; none exists while there is nothing to read.
    fn start(&self, first: Wish, context: Context) {
        let (queue, tell) = (Arc::clone(&self.queue), self.tell.clone());
        let decoder = self.decoder.clone();
        std::thread::spawn(move || {
            let mut next = Some(first);
            while let Some(wish) = next {
                let image = read(&decoder, &wish);
                // The window may be gone by then.
                let there = tell.send((wish.key.clone(), image)).is_ok();
                let mut queue = locked(&queue);
                next = if there { queue.waiting.pop() } else { None };
                match &next {
                    Some(wish) => queue.take(wish),
                    None => queue.hands -= 1,
                }
                drop(queue);
                context.request_repaint();
            }
        });
    }

    /// What is in sight and not there yet.
    pub(super) fn pending(&self) -> usize {
        let queue = locked(&self.queue);
        self.since.len().max(queue.waiting.len() + queue.busy.len())
    }

    #[cfg(test)]
    fn registration(&self) -> usize {
        locked(&self.queue).registration
    }
}

impl Queue {
    fn take(&mut self, wish: &Wish) {
        self.busy.insert(wish.key.clone());
        self.registration += 1;
    }
}

fn name(work: &NewWork) -> String {
    if work.sha256.is_empty() { work.picture.clone() } else { work.sha256.clone() }
}

fn key(work: &NewWork, pixels: u32) -> Key {
    (name(work), pixels)
}

fn read(decoder: &Decoder, wish: &Wish) -> Result<ColorImage, String> {
    let path = lost::found(&wish.path, &wish.sha256, &wish.homes)?;
    decoder.small(&path, wish.key.1).map_err(|missed| match missed {
        Missed::Nothing => "Picture not read: it was called off.".to_owned(),
        Missed::Trouble(words) => format!("Picture not read: {words}"),
    })
}

#[expect(
    clippy::as_conversions,
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "a few dozen points in pixels of the screen"
)]
fn pixels(side: f32, pixels_per_point: f32) -> u32 {
    (side * pixels_per_point).ceil().clamp(1.0, 512.0) as u32
}

/// Where a row's picture is painted.
pub(super) fn place(row: Rect) -> Rect {
    Rect::from_min_size(row.min + vec2(4.0, 4.0), vec2(44.0, row.height() - 8.0))
}

/// The folders in which the pictures of these plans lie.
pub(super) fn homes<'a>(plans: impl Iterator<Item = &'a Path>) -> Vec<PathBuf> {
    let folders = plans.filter_map(Path::parent).map(Path::to_owned);
    let folders: BTreeSet<PathBuf> =
        folders.filter(|folder| !folder.as_os_str().is_empty()).collect();
    folders.into_iter().take(16).collect()
}

#[cfg(test)]
mod tests {
    use egui::{RawInput, pos2};

    use super::*;

    /// A frame at `time` in which these works are in sight.
    fn frame(context: &Context, thumbs: &mut Thumbs, time: f64, works: &[NewWork]) {
        let input = RawInput { time: Some(time), ..RawInput::default() };
        let mut output = context.run_ui(input, |ui| {
            thumbs.begin(ui.ctx(), &Decoder::default());
            for work in works {
                let rect = Rect::from_min_size(pos2(0.0, 0.0), vec2(44.0, 44.0));
                thumbs.show(ui, rect, Align::Center, work, &[]);
            }
            thumbs.end(ui.ctx());
        });
        // There is no screen for them.
        output.textures_delta.clear();
    }

    fn works(folder: &Path, count: usize) -> Vec<NewWork> {
        let path = folder.join("one.bmp");
        std::fs::write(&path, [0]).unwrap();
        let work = |n: usize| NewWork {
            picture: path.to_string_lossy().into_owned(),
            sha256: format!("{n:064}"),
            ..NewWork::default()
        };
        (0..count).map(work).collect()
    }

    fn settle(context: &Context, thumbs: &mut Thumbs, from: f64, works: &[NewWork]) {
        let mut time = from;
        for _ in 0..2000 {
            time += 0.05;
            frame(context, thumbs, time, works);
            if thumbs.pending() == 0 {
                return;
            }
            std::thread::sleep(Duration::from_millis(2));
        }
        panic!("never read");
    }

    #[test]
    fn nothing_is_read_for_rows_that_flew_by() {
        let folder = tempfile::tempdir().unwrap();
        let all = works(folder.path(), 10_000);
        let (context, mut thumbs) = (Context::default(), Thumbs::default());
        // A fling through all of them, 20 rows a frame.
        let mut time = 0.0;
        for rows in all.chunks(20) {
            time += 1.0 / 60.0;
            frame(&context, &mut thumbs, time, rows);
        }
        assert_eq!(thumbs.registration(), 0, "none stood still");
        settle(&context, &mut thumbs, time, &all[9_980..]);
        assert_eq!(thumbs.registration(), 20, "those in sight, each once");
    }

    #[test]
    fn no_more_are_held_than_fit() {
        let folder = tempfile::tempdir().unwrap();
        let all = works(folder.path(), MOST + 100);
        let (context, mut thumbs) = (Context::default(), Thumbs::default());
        for (n, rows) in (0_u32..).zip(all.chunks(34)) {
            settle(&context, &mut thumbs, f64::from(n) * 200.0, rows);
        }
        assert_eq!(thumbs.registration(), all.len());
        assert!(thumbs.kept.len() <= MOST, "{}", thumbs.kept.len());
        assert!(thumbs.kept.contains_key(&key(&all[all.len() - 1], 44)), "the newest stay");
        assert!(!thumbs.kept.contains_key(&key(&all[0], 44)), "the oldest went");
    }
}
