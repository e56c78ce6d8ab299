//! What a frame of the window costs the CPU, without a display: all panels, the board, its
//! triangles; at rest, under a moving pointer and while an edge is dragged.
//!
//! `cargo bench -p sightedge --bench frame` prints medians, and beside them how many rounds of a
//! fixed loop fit in the same time, so that runs on other machines compare.

#![expect(clippy::print_stdout, reason = "a bench reports to whoever runs it")]
#![expect(clippy::unwrap_used, reason = "a bench that cannot start has nothing to report")]
#![expect(
    clippy::as_conversions,
    clippy::cast_precision_loss,
    reason = "places on a screen and counts of a report"
)]

#[path = "../tests/window/support/many.rs"]
mod many;

use std::hint::black_box;
use std::path::Path;
use std::time::{Duration, Instant};

use egui::{Context, Event, Modifiers, PointerButton, Pos2, RawInput, Rect, pos2, vec2};
use sightedge::window::app::App;
use sightedge_service::storage::Storage;
use sightedge_service::{demo, files};

/// The most a frame may cost, in milliseconds.
const TARGET: f64 = 4.0;
const FRAMES: u32 = 400;

struct Stage {
    context: Context,
    app: App,
    time: f64,
    size: egui::Vec2,
}

impl Stage {
    fn new(size: egui::Vec2, file: &Path) -> Self {
        Self::kept(size, Storage::nothing(), vec![file.to_owned()])
    }

    fn kept(size: egui::Vec2, storage: Storage, files: Vec<std::path::PathBuf>) -> Self {
        let context = Context::default();
        let app = App::new(&context, storage, files);
        let mut stage = Self { context, app, time: 0.0, size };
        stage.frame(Vec::new());
        stage.rest();
        stage
    }

    fn rest(&mut self) {
        while self.app.pending() > 0 {
            std::thread::sleep(Duration::from_millis(5));
            self.frame(Vec::new());
        }
        // Pictures follow the size that settled.
        for _ in 0..200 {
            std::thread::sleep(Duration::from_millis(5));
            self.frame(Vec::new());
        }
    }

    /// One frame and its triangles; gives what it took.
    fn frame(&mut self, events: Vec<Event>) -> Duration {
        self.time += 1.0 / 60.0;
        let input = RawInput {
            screen_rect: Some(Rect::from_min_size(Pos2::ZERO, self.size)),
            time: Some(self.time),
            events,
            ..RawInput::default()
        };
        let start = Instant::now();
        let app = &mut self.app;
        let mut output = self.context.run_ui(input, |ui| {
            let context = ui.ctx().clone();
            app.logic(&context);
            app.ui(ui);
        });
        // There is no screen for them.
        output.textures_delta.clear();
        let triangles = self.context.tessellate(output.shapes, output.pixels_per_point);
        black_box(&triangles);
        start.elapsed()
    }

    fn median(&mut self, mut events: impl FnMut(u32) -> Vec<Event>) -> f64 {
        let mut took: Vec<Duration> = (0..FRAMES).map(|n| self.frame(events(n))).collect();
        took.sort();
        took[took.len() / 2].as_secs_f64() * 1e3
    }
}

/// A fixed piece of work: so many milliseconds here.
fn calibration() -> f64 {
    let mut took: Vec<f64> = (0..9)
        .map(|_| {
            let start = Instant::now();
            let mut x = 1_u64;
            for n in 0..2_000_000_u64 {
                x = x.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(n) ^ (x >> 31);
            }
            black_box(x);
            start.elapsed().as_secs_f64() * 1e3
        })
        .collect();
    took.sort_by(f64::total_cmp);
    took[took.len() / 2]
}

const fn key(key: egui::Key, modifiers: Modifiers) -> Event {
    Event::Key { key, physical_key: None, pressed: true, repeat: false, modifiers }
}

/// A record of so many works, each with an edition and a picture.
fn ten_thousand(folder: &Path) -> i64 {
    const WORKS: i64 = 10_000;
    let today = "2025-11-30";
    let at = folder.join("studio");
    let what = sightedge_studio::NewWork {
        picture: folder.join("gone.png").to_string_lossy().into_owned(),
        ..sightedge_studio::NewWork::default()
    };
    let all = many::many(&folder.join("one"), today, &what, WORKS);
    sightedge_studio::open(&at, today).unwrap().record().fill(&all).unwrap();
    WORKS
}

/// Prints what a frame took; whether that is more than is aimed at.
fn missed_by(size: egui::Vec2, what: &str, ms: f64, fixed: f64) -> bool {
    let verdict = if ms <= TARGET { "met" } else { "MISSED" };
    let loops = ms / fixed;
    println!("{:4.0} x {:4.0}  {what:24} {ms:7.3} {loops:8.3}   {verdict}", size.x, size.y);
    ms > TARGET
}

fn main() {
    let folder = tempfile::tempdir().unwrap();
    let picture = demo::picture(&Storage::at(folder.path())).unwrap();
    let plan = files::plan_of(&picture);
    let file = if plan.exists() { plan } else { picture };
    let fixed = calibration();
    println!("fixed loop: {fixed:.2} ms");
    println!("size         what                     ms/frame   loops   target {TARGET} ms");
    let mut missed = false;
    for size in [vec2(1280.0, 800.0), vec2(2560.0, 1440.0)] {
        let mut stage = Stage::new(size, &file);
        let middle = (size / 2.0).to_pos2();
        let mut report = |what: &str, ms: f64| missed |= missed_by(size, what, ms, fixed);
        report("nothing moves", stage.median(|_| Vec::new()));
        report(
            "pointer over the board",
            stage.median(|n| {
                let by = vec2((n % 60) as f32 * 3.0 - 90.0, (n % 40) as f32 * 2.0);
                vec![Event::PointerMoved(middle + by)]
            }),
        );
        // The whole window of the mat, up and down.
        let press = |pressed, pos| Event::PointerButton {
            pos,
            button: PointerButton::Primary,
            pressed,
            modifiers: Modifiers::NONE,
        };
        stage.frame(vec![Event::PointerMoved(middle)]);
        stage.frame(vec![press(true, middle)]);
        let before = stage.app.session().unwrap().revision();
        let dragged = stage.median(|n| {
            let by = (n % 80) as f32 - 40.0;
            vec![Event::PointerMoved(pos2(middle.x, middle.y + by))]
        });
        stage.frame(vec![press(false, middle)]);
        let moved = stage.app.session().unwrap().revision() - before;
        assert!(moved > u64::from(FRAMES) / 4, "the hand moved nothing: {moved} changes");
        report("the window is dragged", dragged);
    }
    let works = ten_thousand(folder.path());
    for size in [vec2(1280.0, 800.0), vec2(2560.0, 1440.0)] {
        let mut stage = Stage::kept(size, Storage::at(folder.path()), Vec::new());
        stage.frame(vec![key(egui::Key::Num6, Modifiers::COMMAND)]);
        stage.rest();
        let over = pos2(300.0, size.y / 2.0);
        stage.frame(vec![Event::PointerMoved(over)]);
        let mut report = |what: &str, ms: f64| missed |= missed_by(size, what, ms, fixed);
        report(&format!("{works} works at rest"), stage.median(|_| Vec::new()));
        let flung = stage.median(|n| {
            let by = if n % 200 < 100 { -1200.0 } else { 1200.0 };
            vec![Event::MouseWheel {
                unit: egui::MouseWheelUnit::Point,
                delta: vec2(0.0, by),
                phase: egui::TouchPhase::Move,
                source: egui::MouseWheelSource::Wheel,
                modifiers: Modifiers::NONE,
            }]
        });
        report("their list is flung", flung);
    }
    if missed {
        std::process::exit(1);
    }
}
