//! A window in the hand of a test: no display, no graphics card, the same frames.

mod fit;
pub(crate) mod many;
mod plans;
mod raster;

use std::cell::RefCell;
use std::path::{Path, PathBuf};
use std::rc::Rc;
use std::sync::Arc;
use std::time::Duration;

use egui::accesskit::Role;
use egui::{DroppedFile, Event, Key, Modifiers, PointerButton, Pos2, Rect, Shape, ViewportId};
use egui_kittest::Harness;
use egui_kittest::kittest::NodeT as _;
use sightedge::window::app::App;
use sightedge::window::session::PlanSession;
use sightedge_core::length::{Length, Unit, parse};
use sightedge_core::spec::{Document, Mat, WindowBy};
use sightedge_service::monitors::{Look, Monitor};
use sightedge_service::storage::Storage;

pub(crate) use plans::{Plans, inches, sides, size};
pub(crate) use raster::{Image, Raster};

/// Seconds between frames, as the program is told.
const FRAME: f32 = 0.1;
/// Frames after which nothing can be said to settle.
const MOST_FRAMES: u32 = 4000;

/// The window and what it holds.
pub(crate) struct Window {
    harness: Harness<'static, Option<App>>,
    raster: Rc<RefCell<Raster>>,
}

/// Something a screen reader finds.
#[derive(Clone, PartialEq, Debug)]
pub(crate) struct Seen {
    pub(crate) role: Role,
    pub(crate) name: String,
    pub(crate) value: String,
    pub(crate) focused: bool,
    pub(crate) rect: Rect,
}

#[derive(Debug)]
struct Dropped(PathBuf);

impl DroppedFile for Dropped {
    fn path(&self) -> &Path {
        &self.0
    }

    fn bytes(&self) -> Result<Vec<u8>, String> {
        std::fs::read(&self.0).map_err(|error| error.to_string())
    }
}

/// A window that keeps nothing, with `files` open.
pub(crate) fn open(files: &[&Path]) -> Window {
    Window::new(Storage::nothing(), 1.0, files)
}

impl Window {
    /// A window with `files` open once it has settled.
    pub(crate) fn new(storage: Storage, pixels_per_point: f32, files: &[&Path]) -> Self {
        Self::on(Vec::new(), storage, pixels_per_point, files)
    }

    /// The same on the first of these monitors; where there are none, on one that is not known.
    pub(crate) fn on(
        monitors: Vec<Monitor>,
        storage: Storage,
        pixels_per_point: f32,
        files: &[&Path],
    ) -> Self {
        let first = monitors.first().map(|monitor| monitor.output.clone());
        let raster = Rc::new(RefCell::new(Raster::default()));
        let mut storage = Some(storage);
        let files: Vec<PathBuf> = files.iter().map(|path| (*path).to_owned()).collect();
        let harness = Harness::builder()
            .with_size([1524.0, 1016.0])
            .with_pixels_per_point(pixels_per_point)
            .with_step_dt(FRAME)
            .with_max_steps(1)
            .renderer(raster::plug(&raster))
            .build_ui_state(
                move |ui, app: &mut Option<App>| match app {
                    Some(app) => {
                        app.logic(&ui.ctx().clone());
                        app.ui(ui);
                    }
                    // Typefaces are there from the next frame on.
                    None => {
                        *app = storage
                            .take()
                            .map(|storage| App::new(ui.ctx(), storage, files.clone()));
                        if let (Some(app), Some(first)) = (app, &first) {
                            app.watch_monitors(ui.ctx(), Look::given(monitors.clone()));
                            app.stands_on(Some(first.clone()));
                        }
                        ui.ctx().request_repaint();
                    }
                },
                None,
            );
        let mut window = Self { harness, raster };
        window.settle();
        window
    }

    /// Makes the window so large.
    pub(crate) fn resize(&mut self, width: f32, height: f32) {
        self.harness.set_size(egui::vec2(width, height));
        self.settle();
    }

    /// Frames until all jobs are done and nothing more is about to move.
    pub(crate) fn settle(&mut self) {
        for _ in 0..MOST_FRAMES {
            self.harness.step();
            let busy = self.harness.state().as_ref().is_none_or(|app| app.pending() > 0);
            if busy {
                std::thread::sleep(Duration::from_millis(3));
            } else if self.repaint_delay() > Duration::from_millis(300) {
                self.harness.check_accessibility();
                return;
            }
        }
        panic!("no rest after {MOST_FRAMES} frames: {:?}", self.harness.ctx.repaint_causes());
    }

    /// One frame for each event that is waiting, or just one.
    pub(crate) fn frame(&mut self) {
        self.harness.step();
    }

    /// Frames for so long, as the program's clock goes.
    pub(crate) fn wait(&mut self, seconds: f32) {
        let mut left = seconds;
        while left > 0.0 {
            self.frame();
            left -= FRAME;
        }
        self.settle();
    }

    /// Pixels of the screen for each point, the size of text in it.
    pub(crate) fn pixels_per_point(&self) -> f32 {
        self.harness.output().pixels_per_point
    }

    /// How long the program would sleep now.
    pub(crate) fn repaint_delay(&self) -> Duration {
        self.harness.output().viewport_output[&ViewportId::ROOT].repaint_delay
    }

    /// What the program asked of its window in the last frame.
    pub(crate) fn asked(&self) -> &[egui::ViewportCommand] {
        &self.harness.output().viewport_output[&ViewportId::ROOT].commands
    }

    /// All that was painted in the last frame.
    pub(crate) fn shapes(&self) -> &[egui::epaint::ClippedShape] {
        &self.harness.output().shapes
    }

    /// The last frame in pixels.
    pub(crate) fn image(&self) -> Image {
        self.strip(egui::Rangef::EVERYTHING)
    }

    /// The same, but painted between these heights alone, which takes less time.
    pub(crate) fn strip(&self, rows: egui::Rangef) -> Image {
        let output = self.harness.output();
        let rows = Rect::from_x_y_ranges(egui::Rangef::EVERYTHING, rows);
        let mut shapes = output.shapes.clone();
        for shape in &mut shapes {
            shape.clip_rect = shape.clip_rect.intersect(rows);
        }
        shapes.retain(|shape| shape.clip_rect.is_positive());
        let triangles = self.harness.ctx.tessellate(shapes, output.pixels_per_point);
        let screen = self.harness.ctx.content_rect();
        self.raster.borrow().paint(&triangles, screen, output.pixels_per_point)
    }

    pub(crate) fn app(&self) -> &App {
        self.harness.state().as_ref().unwrap()
    }

    pub(crate) fn session(&self) -> &PlanSession {
        self.app().session().unwrap()
    }

    pub(crate) fn document(&self) -> &Document {
        self.session().document()
    }

    pub(crate) fn mat(&self) -> &Mat {
        &self.session().variant().unwrap().mat
    }

    /// The reveals, top, right, bottom, left, in words.
    pub(crate) fn reveal(&self) -> String {
        let WindowBy::Reveal(reveal) = self.mat().openings[0].window_by else {
            panic!("a window in hand");
        };
        four(reveal)
    }

    pub(crate) fn steps(&self) -> (Option<&'static str>, Option<&'static str>) {
        self.session().steps()
    }

    pub(crate) fn said(&self) -> &str {
        self.app().said().unwrap_or_default()
    }

    // What is there to be read.

    /// All that a screen reader finds, in its order.
    pub(crate) fn seen(&self) -> Vec<Seen> {
        let root = self.harness.root();
        root.children_recursive()
            // What has no place on the screen cannot be touched.
            .filter(|node| node.accesskit_node().bounding_box().is_some())
            .map(|node| {
                let rect = node.rect();
                let node = node.accesskit_node();
                Seen {
                    role: node.role(),
                    name: node.label().unwrap_or_default(),
                    value: node.value().unwrap_or_default(),
                    focused: node.is_focused(),
                    rect,
                }
            })
            .collect()
    }

    /// The one that can be acted on and is called `name`.
    #[track_caller]
    pub(crate) fn find(&self, name: &str) -> Seen {
        let seen = self.seen();
        let acts = |one: &&Seen| one.role != Role::Label && one.role != Role::TextRun;
        let found = seen.iter().filter(acts).find(|one| one.name == name);
        found.cloned().unwrap_or_else(|| {
            let names: Vec<_> = seen.iter().filter(acts).map(|one| one.name.as_str()).collect();
            panic!("{name:?} is not among {names:?}")
        })
    }

    /// Whether there is something called `name`.
    pub(crate) fn has(&self, name: &str) -> bool {
        self.seen().iter().any(|one| one.name == name || one.value == name)
    }

    /// What a field shows, with its unit.
    #[track_caller]
    pub(crate) fn field(&self, name: &str) -> String {
        self.find(name).value
    }

    /// The name of what has the focus.
    pub(crate) fn focused(&self) -> String {
        let seen = self.seen().into_iter().find(|one| one.focused);
        seen.map(|one| one.name).unwrap_or_default()
    }

    /// How much larger all is by the size of text.
    pub(crate) fn zoom(&self) -> f32 {
        self.harness.ctx.zoom_factor()
    }

    /// Where a text that begins so is painted.
    #[track_caller]
    pub(crate) fn find_text(&self, start: &str) -> Rect {
        fn find(shape: &Shape, start: &str) -> Option<Rect> {
            match shape {
                Shape::Vec(shapes) => shapes.iter().find_map(|shape| find(shape, start)),
                Shape::Text(text) if text.galley.text().starts_with(start) => {
                    Some(text.visual_bounding_rect())
                }
                _ => None,
            }
        }
        let found = self.shapes().iter().find_map(|clipped| find(&clipped.shape, start));
        found.unwrap_or_else(|| panic!("{start:?} is not painted: {}", self.texts()))
    }

    /// All texts painted in the last frame, one a line.
    pub(crate) fn texts(&self) -> String {
        fn collect(shape: &Shape, texts: &mut Vec<String>) {
            match shape {
                Shape::Vec(shapes) => shapes.iter().for_each(|shape| collect(shape, texts)),
                Shape::Text(text) => texts.push(text.galley.text().to_owned()),
                _ => {}
            }
        }
        let mut texts = Vec::new();
        self.shapes().iter().for_each(|clipped| collect(&clipped.shape, &mut texts));
        texts.join("\n")
    }

    // What is on the board.

    /// The handle whose name starts so, the one farthest to the right or the bottom of several.
    #[track_caller]
    pub(crate) fn handle(&self, start: &str) -> Rect {
        self.handles(start).into_iter().last().unwrap_or_else(|| panic!("no handle {start}"))
    }

    pub(crate) fn handles(&self, start: &str) -> Vec<Rect> {
        let mut found: Vec<Rect> = self
            .seen()
            .into_iter()
            .filter(|one| one.role == Role::Slider && one.name.starts_with(start))
            .map(|one| one.rect)
            .collect();
        let key = |rect: &Rect| rect.center().x + rect.center().y;
        found.sort_by(|a, b| key(a).total_cmp(&key(b)));
        found
    }

    /// The board on the screen, told from its edges' handles.
    pub(crate) fn board(&self) -> Rect {
        let mut edges: Vec<Rect> = self.handles("Border, ");
        edges.extend(self.handles("Outer "));
        let centres = edges.iter().map(Rect::center);
        centres.clone().fold(Rect::NOTHING, |all, centre| all.union(Rect::from_pos(centre)))
    }

    /// Points of the screen for each millimetre, told from the image's width between the handles
    /// of its reveals, whatever of the board is in view.
    pub(crate) fn scale(&self) -> f32 {
        let (left, right) = (self.handles("Reveal, left: "), self.handles("Reveal, right: "));
        let window = self.session().derived().layout.exact.openings[0].sight.size.width;
        (right[0].center().x - left[0].center().x) / narrow(window.to_mm())
    }

    /// A length of the board on the screen.
    pub(crate) fn points(&self, text: &str) -> f32 {
        let outer = narrow(self.session().derived().layout.exact.outer.width.to_mm());
        narrow(inches(text).to_mm()) * self.board().width() / outer
    }

    // The hand.

    pub(crate) fn hold(&mut self, modifiers: Modifiers) {
        self.harness.event(Event::ModifiersChanged(modifiers));
        self.frame();
    }

    pub(crate) fn move_to(&mut self, at: Pos2) {
        self.harness.event(Event::PointerMoved(at));
        self.frame();
    }

    pub(crate) fn button(&mut self, pos: Pos2, pressed: bool) {
        let modifiers = self.harness.ctx.input(|input| input.modifiers);
        let button = PointerButton::Primary;
        self.harness.event(Event::PointerButton { pos, button, pressed, modifiers });
        self.frame();
    }

    /// Takes hold at `from` and moves to `to`, without letting go.
    pub(crate) fn take(&mut self, from: Pos2, to: Pos2) {
        self.move_to(from);
        self.button(from, true);
        for share in [0.3, 0.7, 1.0] {
            self.move_to(from + (to - from) * share);
        }
        // The frame that shows what the last movement did.
        self.frame();
    }

    /// Lets go at `at`.
    pub(crate) fn drop(&mut self, at: Pos2) {
        self.button(at, false);
        self.harness.event(Event::PointerGone);
        self.settle();
    }

    pub(crate) fn drag(&mut self, from: Pos2, by: (f32, f32)) {
        let to = from + egui::vec2(by.0, by.1);
        self.take(from, to);
        self.drop(to);
    }

    pub(crate) fn click_at(&mut self, at: Pos2) {
        self.move_to(at);
        self.button(at, true);
        self.button(at, false);
        self.settle();
    }

    /// Opens the four sides of that field.
    #[track_caller]
    pub(crate) fn open_sides(&mut self, name: &str) {
        let opener = self.find(&format!("{name}: each side")).rect.center();
        self.click_at(opener);
    }

    #[track_caller]
    pub(crate) fn click(&mut self, name: &str) {
        let at = self.find(name).rect.center();
        self.click_at(at);
    }

    pub(crate) fn key(&mut self, key: Key) {
        self.key_with(Modifiers::NONE, key);
    }

    pub(crate) fn key_with(&mut self, modifiers: Modifiers, key: Key) {
        self.press_with(modifiers, key);
        self.settle();
    }

    /// The same, and the next frame only.
    pub(crate) fn press_with(&mut self, modifiers: Modifiers, key: Key) {
        self.harness.key_press_modifiers(modifiers, key);
        self.frame();
    }

    pub(crate) fn type_text(&mut self, text: &str) {
        self.harness.event(Event::Text(text.to_owned()));
        self.frame();
        self.settle();
    }

    /// Keys pressed and let go within one frame, each with what was held beside it; by the end
    /// of the frame nothing is held.
    pub(crate) fn press_at_once(&mut self, modifiers: Modifiers, keys: &[Key]) {
        for key in keys {
            for pressed in [true, false] {
                let event = Event::Key {
                    key: *key,
                    physical_key: None,
                    pressed,
                    repeat: false,
                    modifiers,
                };
                self.harness.input_mut().events.push(event);
            }
        }
        self.frame();
        self.settle();
    }

    /// Several keys within one frame, as a slow one gathers them.
    pub(crate) fn type_at_once(&mut self, texts: &[&str], last: Option<Key>) {
        for text in texts {
            self.harness.input_mut().events.push(Event::Text((*text).to_owned()));
        }
        for pressed in [true, false] {
            if let Some(key) = last {
                let modifiers = Modifiers::NONE;
                let event =
                    Event::Key { key, physical_key: None, pressed, repeat: false, modifiers };
                self.harness.input_mut().events.push(event);
            }
        }
        self.frame();
        self.settle();
    }

    /// Tab and a press of the mouse within one frame.
    pub(crate) fn tab_and_press_at(&mut self, pos: Pos2) {
        let modifiers = Modifiers::NONE;
        let tab = |pressed| Event::Key {
            key: Key::Tab,
            physical_key: None,
            pressed,
            repeat: false,
            modifiers,
        };
        let button = PointerButton::Primary;
        let press = |pressed| Event::PointerButton { pos, button, pressed, modifiers };
        let events = [tab(true), tab(false), Event::PointerMoved(pos), press(true)];
        self.harness.input_mut().events.extend(events);
        self.frame();
        self.button(pos, false);
        self.settle();
    }

    /// Replaces what a field shows, and stays in it.
    #[track_caller]
    pub(crate) fn type_in(&mut self, name: &str, text: &str) {
        self.click(name);
        self.key_with(Modifiers::COMMAND, Key::A);
        self.type_text(text);
    }

    /// Answers the next dialog: with a path, or as a system that has no dialogs.
    pub(crate) fn answer_dialog(&mut self, path: Option<&Path>) {
        if let Some(app) = self.harness.state_mut() {
            app.answer_dialog(path.map(Path::to_owned));
        }
    }

    pub(crate) fn drop_files(&mut self, files: &[&Path]) {
        self.let_fall(files);
        self.settle();
    }

    /// The same, and the next frame only.
    pub(crate) fn let_fall(&mut self, files: &[&Path]) {
        for file in files {
            self.harness.input_mut().dropped_files.push(Arc::new(Dropped((*file).to_owned())));
        }
        self.frame();
    }

    /// Decodes pictures in processes of `program` from now on.
    /// The window is moved to the monitor of that name.
    pub(crate) fn move_to_monitor(&mut self, output: &str) {
        if let Some(app) = self.harness.state_mut() {
            app.stands_on(Some(output.to_owned()));
        }
        self.settle();
    }

    pub(crate) fn decode_apart(&mut self, program: PathBuf) {
        self.harness.state_mut().as_mut().unwrap().decode_apart(program);
    }

    /// The person presses the window's closing button.
    pub(crate) fn close(&mut self) {
        let viewports = &mut self.harness.input_mut().viewports;
        let events = &mut viewports.get_mut(&ViewportId::ROOT).unwrap().events;
        events.push(egui::ViewportEvent::Close);
        self.frame();
    }
}

#[expect(clippy::as_conversions, clippy::cast_possible_truncation, reason = "points")]
fn narrow(value: f64) -> f32 {
    value as f32
}

/// Four sides in words, once where they are equal.
pub(crate) fn four(sides: sightedge_core::geometry::Sides<Length>) -> String {
    let texts: Vec<String> = sides.each().iter().map(|(_, side)| in_inches(*side)).collect();
    texts.join(", ")
}

pub(crate) fn in_inches(length: Length) -> String {
    length.text(Unit::Inch)
}

/// A length as it is read back from what is shown: what is seen can be typed.
#[track_caller]
pub(crate) fn read(shown: &str) -> Length {
    parse(shown, Unit::Inch).unwrap_or_else(|error| panic!("{shown:?}: {error}"))
}
