//! The works' pictures, small: read off the frame, two at a time, and only for the rows in sight.
//! What is no longer in sight is cancelled, so nothing is read for rows that flew by.

use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};
use std::time::Duration;

use egui::{
    Align, Align2, ColorImage, Context, FontId, Rect, StrokeKind, TextureHandle, Ui, vec2,
};
use sightedge_pictures::CancelToken;
use sightedge_studio::NewWork;

use super::lost;
use crate::window::theme;
use crate::window::workers::{Decoder, NoPicture, Order, WorkerPool};

/// The most pictures that are held, some 10 MB of them.
const MOST: usize = 240;
/// The most that are read at once.
const AT_ONCE: usize = 2;
/// How long a row must be in sight before its picture is read, in seconds.
const SETTLE: f64 = 0.1;

/// Names a picture of a size: its content where that is known, else its file.
type Key = (String, u32);

/// One that is to be read.
#[derive(Clone, Debug)]
struct Wanted {
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

/// What came of one: `None` where it was cancelled before its turn.
type Read = (Key, Option<Result<ColorImage, String>>);

/// The small pictures.
#[derive(Debug, Default)]
pub(super) struct Thumbs {
    decoder: Decoder,
    pool: Option<WorkerPool<Read>>,
    /// What was requested of the pool and not replied yet.
    requested: BTreeMap<Key, CancelToken>,
    kept: BTreeMap<Key, (u64, Kept)>,
    clock: u64,
    /// Since when each row in sight has been there that has no picture yet.
    since: BTreeMap<Key, f64>,
    wanted: Vec<Wanted>,
    #[cfg(test)]
    read: usize,
}

impl Thumbs {
    /// Before the rows of a frame: takes in what was read.
    pub(super) fn begin(&mut self, context: &Context, decoder: &Decoder) {
        if !self.decoder.shows_like(decoder) {
            // Made anew for another monitor.
            self.requested.values().for_each(CancelToken::cancel);
            self.requested.clear();
            self.kept.clear();
        }
        self.decoder.clone_from(decoder);
        self.clock += 1;
        self.wanted.clear();
        let read = self.pool.as_mut().map(WorkerPool::replies).unwrap_or_default();
        for (key, read) in read {
            self.requested.remove(&key);
            let Some(read) = read else { continue };
            #[cfg(test)]
            {
                self.read += 1;
            }
            let kept = match read {
                Ok(image) => Kept::There(context.load_texture(
                    "work",
                    image,
                    egui::TextureOptions::LINEAR,
                )),
                Err(words) => Kept::Missing(words),
            };
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
                self.wanted.push(Wanted { key, path, sha256, homes: homes.to_vec() });
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
        let wanted = std::mem::take(&mut self.wanted);
        let before = std::mem::take(&mut self.since);
        let mut settled = Vec::new();
        let mut soonest: Option<f64> = None;
        for one in wanted {
            let since = before.get(&one.key).copied().unwrap_or(now);
            self.since.insert(one.key.clone(), since);
            let left = since + SETTLE - now;
            if left > 0.0 {
                soonest = Some(soonest.map_or(left, |other| other.min(left)));
            } else {
                settled.push(one);
            }
        }
        if let Some(left) = soonest {
            context.request_repaint_after(Duration::from_secs_f64(left));
        }
        for (key, token) in &self.requested {
            if !self.since.contains_key(key) {
                token.cancel();
            }
        }
        // The newest request comes first, so the upper rows are requested last.
        for one in settled.into_iter().rev() {
            if !self.requested.contains_key(&one.key) {
                self.request(context, one);
            }
        }
        while self.kept.len() > MOST {
            let oldest = self.kept.iter().min_by_key(|(_, (used, _))| *used);
            let Some(key) = oldest.map(|(key, _)| key.clone()) else { break };
            self.kept.remove(&key);
        }
    }

    fn request(&mut self, context: &Context, wanted: Wanted) {
        let pool = self.pool.get_or_insert_with(|| {
            WorkerPool::new(context.clone(), AT_ONCE, Order::NewestFirst)
        });
        let (decoder, token) = (self.decoder.clone(), CancelToken::default());
        let (key, cancelled) = (wanted.key.clone(), token.clone());
        let of = key.clone();
        pool.push(
            0,
            move || {
                let image = (!cancelled.is_cancelled()).then(|| read(&decoder, &wanted));
                (wanted.key, image)
            },
            |words| (of, Some(Err(format!("Picture not read: {words}")))),
        );
        self.requested.insert(key, token);
    }

    /// What is in sight and not there yet.
    pub(super) fn pending(&self) -> usize {
        self.since.len().max(self.pool.as_ref().map_or(0, WorkerPool::pending))
    }

    /// How many were ever read, or are about to be.
    #[cfg(test)]
    fn begun(&self) -> usize {
        self.read + self.requested.len()
    }
}

fn name(work: &NewWork) -> String {
    if work.sha256.is_empty() { work.picture.clone() } else { work.sha256.clone() }
}

fn key(work: &NewWork, pixels: u32) -> Key {
    (name(work), pixels)
}

fn read(decoder: &Decoder, wanted: &Wanted) -> Result<ColorImage, String> {
    let path = lost::found(&wanted.path, &wanted.sha256, &wanted.homes)?;
    decoder.small(&path, wanted.key.1).map_err(|why| match why {
        NoPicture::Nothing => "Picture not read: it was called off.".to_owned(),
        NoPicture::Failed(words) => format!("Picture not read: {words}"),
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
        assert_eq!(thumbs.begun(), 0, "none stood still");
        settle(&context, &mut thumbs, time, &all[9_980..]);
        assert_eq!(thumbs.begun(), 20, "those in sight, each once");
    }

    #[test]
    fn no_more_are_held_than_fit() {
        let folder = tempfile::tempdir().unwrap();
        let all = works(folder.path(), MOST + 100);
        let (context, mut thumbs) = (Context::default(), Thumbs::default());
        for (n, rows) in (0_u32..).zip(all.chunks(34)) {
            settle(&context, &mut thumbs, f64::from(n) * 200.0, rows);
        }
        assert_eq!(thumbs.begun(), all.len());
        assert!(thumbs.kept.len() <= MOST, "{}", thumbs.kept.len());
        assert!(thumbs.kept.contains_key(&key(&all[all.len() - 1], 44)), "the newest stay");
        assert!(!thumbs.kept.contains_key(&key(&all[0], 44)), "the oldest went");
    }
}
