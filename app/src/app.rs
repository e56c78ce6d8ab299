//! The window: open plans, what is asked of them, and what comes back from the jobs.

use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::time::Duration;

use egui::{Context, Frame, Panel, Ui};
use sightedge_core::command::Command;
use sightedge_core::material::{Own, Tables};
use sightedge_pictures::Watch;
use sightedge_pictures::colour::Vision;

use crate::action::{Action, Deed};
use crate::asking::{Answer, Asking};
use crate::canvas::{Canvas, Shows};
use crate::desk::Desk;
use crate::files::{self, SaveError, Stamp};
use crate::jobs::{DeskId, Done, Jobs, Opened, Purpose, Watched};
use crate::panels::{self, Asks, Start, Tab, Top};
use crate::rooms::{self, Hall, Room, Rooms};
use crate::state::{Keep, Settings};
use crate::textures::{Held, Textures};
use crate::view::View;
use crate::{demo, opening, theme, widgets};

/// What becomes of a plan that is open.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
enum Leaving {
    Stays,
    /// It closes once it is saved.
    OnceSaved,
    /// Its changes are given up once the window has closed.
    GivenUp,
}

/// One plan with the canvas it is looked at through.
#[derive(Debug)]
struct Bench {
    id: DeskId,
    desk: Desk,
    canvas: Canvas,
    watch: Watch,
    /// The revision whose unsaved state was last kept safe, and when it changed.
    kept_safe: u64,
    changed_at: f64,
    seen_revision: u64,
    leaving: Leaving,
    /// Whether a lost picture was looked for.
    looked_for: bool,
    /// Whether it is work of an earlier session that was not saved.
    restored: bool,
}

impl Bench {
    /// Whether closing it would lose something that a person made.
    fn is_work(&self) -> bool {
        let touched = self.restored || self.desk.steps() != (None, None);
        self.desk.is_unsaved() && touched
    }
}

/// The window.
#[derive(Debug)]
pub struct App {
    benches: Vec<Bench>,
    front: usize,
    jobs: Jobs,
    textures: Textures,
    settings: Settings,
    settings_kept: Settings,
    keep: Keep,
    start: Start,
    asking: Vec<Asking>,
    said: Option<String>,
    next: u64,
    quitting: bool,
    may_quit: bool,
    title: String,
    vision: Option<Vision>,
    room: Room,
    rooms: Rooms,
    own: Own,
    tables: Arc<Tables>,
}

/// How long a change waits until it is kept safe, in seconds.
const KEEP_AFTER: f64 = 1.0;
/// The width of the list of places of work, in points.
const RAIL: f32 = 108.0;

fn desks(benches: &[Bench]) -> Vec<(DeskId, &Desk)> {
    benches.iter().map(|bench| (bench.id, &bench.desk)).collect()
}

impl App {
    /// A window with `files` to open.
    pub fn new(context: &Context, keep: Keep, files: Vec<PathBuf>) -> Self {
        theme::install(context);
        let settings = keep.settings();
        let mut app = Self {
            benches: Vec::new(),
            front: 0,
            jobs: Jobs::new(context.clone()),
            textures: Textures::default(),
            settings_kept: settings.clone(),
            settings,
            keep,
            start: Start::default(),
            asking: Vec::new(),
            said: None,
            next: 0,
            quitting: false,
            may_quit: false,
            title: String::new(),
            vision: None,
            room: Room::default(),
            rooms: Rooms::default(),
            own: Own::default(),
            tables: Arc::new(Tables::shipped().clone()),
        };
        match app.keep.materials() {
            Ok(own) => app.lay(own),
            Err(words) => app.asking.push(Asking::tell("Your materials", &words)),
        }
        app.dress(context);
        for unsaved in app.keep.left_unsaved() {
            app.asking.push(Asking::restore(unsaved));
        }
        for file in files {
            app.jobs.open(file, app.settings.unit());
        }
        app
    }

    /// Lays a person's own materials over those of the program.
    fn lay(&mut self, own: Own) {
        self.tables = Arc::new(Tables::shipped().clone().with(own.tables()));
        self.own = own;
        for bench in &mut self.benches {
            bench.desk.use_tables(Arc::clone(&self.tables));
        }
    }

    fn dress(&self, context: &Context) {
        let theme = if self.settings.dark {
            egui::ThemePreference::Dark
        } else {
            egui::ThemePreference::Light
        };
        context.set_theme(theme);
    }

    /// Decodes pictures in processes of this program from now on.
    pub fn decode_apart(&mut self, program: PathBuf) {
        self.jobs.decode_apart(program);
    }

    /// The plan in front.
    pub fn desk(&self) -> Option<&Desk> {
        self.benches.get(self.front).map(|bench| &bench.desk)
    }

    /// How many plans are open.
    pub fn open_plans(&self) -> usize {
        self.benches.len()
    }

    /// Jobs that are not done.
    pub fn pending(&self) -> usize {
        self.jobs.pending() + self.rooms.pending()
    }

    /// What of pictures is held for the screen, and the most that were decoded at once.
    pub fn pictures_held(&self) -> (Held, usize) {
        (self.textures.held(), self.jobs.most_decoded())
    }

    /// The settings as they stand.
    pub fn settings(&self) -> &Settings {
        &self.settings
    }

    /// What the line at the foot says.
    pub fn said(&self) -> Option<&str> {
        self.said.as_deref()
    }

    /// What is done before a frame: results of jobs, drops, keys, closing.
    pub fn logic(&mut self, context: &Context) {
        for done in self.jobs.done() {
            self.take(context, done);
        }
        let dropped: Vec<PathBuf> = context.input(|input| {
            input.raw.dropped_files.iter().map(|file| file.path().to_owned()).collect()
        });
        for path in dropped {
            self.jobs.open(path, self.settings.unit());
        }
        self.closing(context);
        self.keep_safe(context);
        if self.settings != self.settings_kept {
            self.settings_kept = self.settings.clone();
            if let Err(error) = self.keep.keep_settings(&self.settings) {
                self.said = Some(format!("The window's settings could not be kept: {error}"));
            }
        }
    }

    /// Shows the window and carries out what was asked.
    pub fn ui(&mut self, ui: &mut Ui) {
        let context = ui.ctx().clone();
        let mut asks = Asks::default();
        let keyed = self.shortcuts(&context);

        let palette = theme::palette(ui);
        let bar = Frame::new().fill(palette.panel).inner_margin(egui::Margin::symmetric(8, 4));
        let tabs: Vec<Tab> = self
            .benches
            .iter()
            .map(|bench| Tab { title: bench.desk.title(), unsaved: bench.is_work() })
            .collect();
        let open = !self.benches.is_empty();
        let top = Top {
            tabs: &tabs,
            front: open.then_some(self.front),
            board: self.room == Room::Mat,
            saved: self.desk().is_some_and(|desk| desk.saved().is_some()),
            steps: self.desk().map(Desk::steps).unwrap_or_default(),
        };
        let picked = Panel::top("top")
            .frame(bar)
            .show(ui, |ui| {
                panels::top(ui, top, &mut self.settings, &mut self.vision, &mut asks)
            })
            .inner;
        if let Some(picked) = picked {
            self.bring_forward(picked);
        }
        self.foot(ui, bar);
        self.rail(ui, &mut asks);
        if open && self.room == Room::Mat {
            self.plan(ui, &mut asks);
        } else if open || !self.room.needs_plan() {
            self.place(ui, &mut asks);
        } else {
            let fill = Frame::new().fill(palette.panel);
            egui::CentralPanel::default().frame(fill).show(ui, |ui| {
                panels::start(ui, &mut self.start, &self.settings.recent, &mut asks);
            });
        }
        self.ask(&context);
        if let Some(said) = asks.said {
            self.said = Some(said);
        }
        // After the fields: what was typed in one is kept before it is saved.
        asks.actions.extend(keyed.into_iter().map(Action::Do));
        let pointed = asks.actions.iter().rev().find_map(|action| match action {
            Action::Point(place) => Some(*place),
            _ => None,
        });
        if let Some(bench) = self.benches.get_mut(self.front)
            && bench.canvas.pointed != pointed
        {
            bench.canvas.pointed = pointed;
            context.request_repaint();
        }
        for action in asks.actions {
            self.carry_out(&context, action);
        }
        self.entitle(&context);
    }

    /// Brings a plan to the front; what was said of another is no longer true of this one.
    fn bring_forward(&mut self, index: usize) {
        if self.front != index {
            self.front = index;
            self.said = None;
        }
    }

    fn foot(&mut self, ui: &mut Ui, bar: Frame) {
        Panel::bottom("foot").frame(bar).exact_size(28.0).show(ui, |ui| {
            ui.horizontal_centered(|ui| {
                let bench = self.benches.get(self.front);
                let text = match (&self.said, bench) {
                    (Some(said), _) => said.clone(),
                    (None, Some(_)) => self.room.hand().to_owned(),
                    (None, None) => String::new(),
                };
                if let Some(bench) = bench {
                    let now = ui.input(|input| input.time);
                    match widgets::opening(ui, self.textures.opening(bench.id, now)) {
                        Some(true) => self.textures.go_on(bench.id),
                        Some(false) => self.textures.stop(bench.id),
                        None => {}
                    }
                }
                // What has just been done or refused is said aloud, what can be done quietly.
                let text = if self.said.is_some() {
                    egui::RichText::new(text)
                } else {
                    widgets::quiet(ui, &text)
                };
                ui.add(egui::Label::new(text).truncate());
            });
        });
    }

    /// The list of places of work; none while there is but one, or nothing to work on.
    fn rail(&mut self, ui: &mut Ui, asks: &mut Asks) {
        let open = !self.benches.is_empty();
        let apart = Room::ALL.into_iter().any(|room| !room.needs_plan());
        if Room::ALL.len() < 2 || !(open || apart) {
            return;
        }
        let palette = theme::palette(ui);
        let frame = Frame::new().fill(palette.panel).inner_margin(egui::Margin {
            left: 8,
            right: 8,
            top: 12,
            bottom: 8,
        });
        let room = self.room;
        let pressed = Panel::left("places")
            .frame(frame)
            .resizable(false)
            .exact_size(RAIL)
            .show(ui, |ui| {
                let desks = desks(&self.benches);
                let hall = Hall {
                    desks: &desks,
                    front: open.then_some(self.front),
                    pictures: &[],
                    settings: &self.settings,
                    keep: &self.keep,
                    own: &self.own,
                    tables: &self.tables,
                };
                rooms::rail(ui, room, open, |room| self.rooms.waits(room, hall))
            })
            .inner;
        asks.actions.extend(pressed.map(|room| Action::Do(Deed::Go(room))));
    }

    /// The place of work in front, other than the mat.
    fn place(&mut self, ui: &mut Ui, asks: &mut Asks) {
        let open = !self.benches.is_empty();
        let front = self.benches.get(self.front);
        let pictures = front.map(|bench| self.textures.shown(bench.id)).unwrap_or_default();
        let desks = desks(&self.benches);
        let hall = Hall {
            desks: &desks,
            front: open.then_some(self.front),
            pictures: &pictures,
            settings: &self.settings,
            keep: &self.keep,
            own: &self.own,
            tables: &self.tables,
        };
        self.rooms.show(ui, self.room, hall, asks);
    }

    fn plan(&mut self, ui: &mut Ui, asks: &mut Asks) {
        let palette = theme::palette(ui);
        let Some(bench) = self.benches.get_mut(self.front) else { return };
        let about = self.textures.about(bench.id);
        let margin = egui::Margin { left: 16, right: 4, top: 6, bottom: 4 };
        let left = Frame::new().fill(palette.panel).inner_margin(margin);
        let side =
            Frame::new().fill(palette.panel).inner_margin(egui::Margin::symmetric(16, 8));
        if let Some(view) = View::of(&bench.desk, about) {
            Panel::left("decisions")
                .frame(left)
                .resizable(true)
                .default_size(372.0)
                .size_range(340.0..=460.0)
                .show(ui, |ui| {
                    ui.push_id(bench.id, |ui| {
                        egui::ScrollArea::vertical().auto_shrink([false, false]).show(
                            ui,
                            |ui| {
                                // Room for the bar, which lies over what it scrolls.
                                ui.set_width(ui.available_width() - 12.0);
                                panels::mat(ui, &view, asks);
                            },
                        );
                    });
                });
            Panel::right("judged")
                .frame(side)
                .resizable(true)
                .default_size(268.0)
                .size_range(220.0..=400.0)
                .show(ui, |ui| {
                    Panel::bottom("figures")
                        .frame(Frame::new())
                        .show_separator_line(true)
                        .show(ui, |ui| {
                            ui.add_space(8.0);
                            panels::figures(ui, &view);
                        });
                    panels::checks(ui, &view, asks);
                });
        }
        let shows = Shows {
            dimensions: self.settings.dimensions,
            hidden: self.settings.hidden,
            corner: self.settings.corner,
            surround: self.settings.surround,
            vision: self.vision,
        };
        self.textures.see_as(self.vision);
        let textures = self.textures.shown(bench.id);
        let error = self.textures.error(bench.id).map(ToOwned::to_owned);
        egui::CentralPanel::default().frame(Frame::new()).show(ui, |ui| {
            ui.push_id(bench.id, |ui| {
                let canvas = bench.canvas.show(ui, &bench.desk, shows, &textures);
                asks.actions.extend(canvas);
                if let Some(error) = error
                    && crate::canvas::trouble(ui, &error)
                {
                    asks.actions.push(Action::Do(Deed::FindPicture));
                }
            });
        });
        let lost = self.textures.error(bench.id).is_some();
        if lost
            && !bench.looked_for
            && let (Some(path), Some(work)) =
                (bench.desk.picture(), bench.desk.kept().works.first())
            && !path.exists()
        {
            bench.looked_for = true;
            let sha256 = work.picture.sha256.clone();
            self.jobs.find(bench.id, bench.desk.plan.clone(), sha256);
        }
        if let (Some(path), Some(view)) = (bench.desk.picture(), View::of(&bench.desk, None))
            && let Some(wanted) = bench.canvas.wanted(view.window.image, ui.pixels_per_point())
        {
            self.textures.want(&mut self.jobs, ui.ctx(), bench.id, &path, wanted);
        }
    }

    fn shortcuts(&self, context: &Context) -> Vec<Deed> {
        let mut keyed = Vec::new();
        if !self.asking.is_empty() {
            return keyed;
        }
        let typing = widgets::is_typing(context);
        context.input_mut(|input| {
            input.events.retain(|event| {
                let egui::Event::Key { key, pressed: true, modifiers, .. } = event else {
                    return true;
                };
                match Deed::of_key(*modifiers, *key) {
                    // A field that is typed in takes its own text back.
                    Some(Deed::Undo | Deed::Redo) if typing => true,
                    Some(deed) => {
                        keyed.push(deed);
                        false
                    }
                    None => true,
                }
            });
        });
        if !keyed.is_empty()
            && let Some(field) = context.memory(egui::Memory::focused)
            && typing
        {
            context.memory_mut(|memory| memory.surrender_focus(field));
        }
        keyed
    }

    fn carry_out(&mut self, context: &Context, action: Action) {
        if let Action::Do(deed) = action {
            self.deed(context, deed);
            return;
        }
        if let Action::Materials(own) = action {
            if let Err(error) = self.keep.keep_materials(&own) {
                self.said = Some(format!("Your materials could not be kept: {error}"));
            }
            self.lay(*own);
            return;
        }
        let Some(bench) = self.benches.get_mut(self.front) else { return };
        let outcome = match action {
            Action::Run(command) => {
                self.said = None;
                bench.desk.run(&command)
            }
            Action::Draft(command) => {
                self.said = None;
                bench.desk.draft(command)
            }
            Action::Keep => {
                bench.desk.keep();
                Ok(())
            }
            Action::GiveBack => {
                bench.desk.give_back();
                Ok(())
            }
            Action::Tick(step) => {
                bench.desk.tick(&step, &crate::clock::today());
                Ok(())
            }
            Action::Select(_) | Action::Point(_) | Action::Materials(_) | Action::Do(_) => {
                Ok(())
            }
        };
        if let Err(refusal) = outcome {
            self.said = Some(refusal.to_string());
        }
    }

    fn deed(&mut self, context: &Context, deed: Deed) {
        if self.rooms.deed(self.room, &deed) {
            return;
        }
        let front = self.benches.get_mut(self.front);
        match (deed, front) {
            (Deed::Open, front) => {
                let near = front.map(|bench| bench.desk.plan.clone());
                self.jobs
                    .ask(Purpose::Open, near.or_else(|| self.settings.recent.first().cloned()));
            }
            (Deed::OpenPath(path), _) => self.jobs.open(path, self.settings.unit()),
            (Deed::OpenDemo, _) => match demo::picture(&self.keep) {
                Ok(path) => self.jobs.open(path, self.settings.unit()),
                Err(words) => self.said = Some(words),
            },
            (Deed::Theme, _) => {
                self.settings.dark = !self.settings.dark;
                self.dress(context);
            }
            (Deed::Dimensions, _) => self.settings.dimensions = !self.settings.dimensions,
            (Deed::Hidden, _) => self.settings.hidden = !self.settings.hidden,
            (Deed::Corner, _) => self.settings.corner = !self.settings.corner,
            (Deed::Go(room), front) => {
                if front.is_some() || !room.needs_plan() {
                    self.room = room;
                }
            }
            (_, None) => {}
            (Deed::Save, Some(bench)) => {
                bench.desk.keep();
                let desk = &bench.desk;
                let (document, plan) = (desk.kept().clone(), desk.plan.clone());
                self.jobs.save(bench.id, document, plan, desk.stamp.clone(), false);
            }
            (Deed::SaveAs, Some(bench)) => {
                self.jobs.ask(Purpose::SaveAs(bench.id), Some(bench.desk.plan.clone()));
            }
            (Deed::Revert, Some(bench)) => match bench.desk.saved().cloned() {
                Some(saved) => bench.desk.replace(saved, "revert"),
                None => self.said = Some("This plan was never saved: undo instead.".to_owned()),
            },
            (Deed::FindPicture, Some(bench)) => {
                self.jobs.ask(Purpose::Relink(bench.id), Some(bench.desk.plan.clone()));
            }
            (Deed::Close, Some(bench)) => {
                if bench.is_work() {
                    self.asking.push(Asking::close(bench.id, &bench.desk.title()));
                } else {
                    let id = bench.id;
                    self.close(id);
                }
            }
            (Deed::Undo, Some(bench)) => {
                if let Some(name) = bench.desk.undo() {
                    self.said = Some(format!("Taken back: {name}."));
                }
            }
            (Deed::Redo, Some(bench)) => {
                if let Some(name) = bench.desk.redo() {
                    self.said = Some(format!("Done again: {name}."));
                }
            }
            (Deed::Fit, Some(bench)) => bench.canvas.fit(),
            (Deed::ZoomIn, Some(bench)) => bench.canvas.zoom(1.25),
            (Deed::ZoomOut, Some(bench)) => bench.canvas.zoom(0.8),
            (Deed::NextPlan, Some(_)) => {
                self.bring_forward((self.front + 1) % self.benches.len());
            }
            (Deed::PlanBefore, Some(_)) => {
                let count = self.benches.len();
                self.bring_forward((self.front + count - 1) % count);
            }
        }
    }

    fn take(&mut self, context: &Context, done: Done) {
        match done {
            Done::Opened(path, result) => match *result {
                Ok(opened) => self.opened(&path, opened),
                Err(words) => {
                    self.asking.push(Asking::tell("This could not be opened", &words));
                }
            },
            Done::Chosen(purpose, Some(path), _) => match purpose {
                Purpose::Open => self.jobs.open(path, self.settings.unit()),
                Purpose::SaveAs(id) => self.save_as(id, &path),
                Purpose::Relink(id) => self.relink(id, &path),
            },
            // No dialog answers that fast: the system has none.
            Done::Chosen(purpose, None, took) if took < Duration::from_millis(150) => {
                let near = self.desk().map(|desk| desk.plan.clone());
                self.asking.push(Asking::path(purpose, near));
            }
            Done::Chosen(..) | Done::Found(_, None) => {}
            Done::Saved(id, result) => {
                let (document, plan, result) = *result;
                self.saved(id, document, &plan, result);
            }
            Done::Picture(id, ask, brought) => {
                self.textures.take(context, id, ask, brought);
            }
            Done::Changed(id, Watched::Picture) => {
                self.textures.reload(id);
                let path = self.bench(id).and_then(|bench| bench.desk.picture());
                if let Some(path) = path.filter(|path| path.exists()) {
                    self.relink(id, &path);
                }
            }
            Done::Found(id, Some(path)) => self.relink(id, &path),
            Done::Changed(id, Watched::Plan) => self.changed_outside(id),
        }
    }

    fn opened(&mut self, path: &Path, opened: Opened) {
        let same = self.benches.iter().position(|bench| bench.desk.plan == opened.plan);
        self.settings.opened(&files::named_by(path));
        self.said = opened.said;
        if let Some(index) = same {
            self.front = index;
            return;
        }
        let desk = Desk::new(opened.document, opened.plan, opened.stamp);
        self.add(desk);
    }

    fn add(&mut self, mut desk: Desk) {
        desk.use_tables(Arc::clone(&self.tables));
        self.next += 1;
        let id = DeskId(self.next);
        let watch = self.watch(id, &desk);
        self.benches.push(Bench {
            id,
            canvas: Canvas::default(),
            watch,
            kept_safe: desk.revision(),
            changed_at: 0.0,
            seen_revision: desk.revision(),
            leaving: Leaving::Stays,
            looked_for: false,
            restored: false,
            desk,
        });
        self.front = self.benches.len() - 1;
    }

    fn watch(&self, id: DeskId, desk: &Desk) -> Watch {
        let watch = Watch::default();
        let mut files = vec![(Watched::Plan, desk.plan.clone())];
        files.extend(desk.picture().map(|picture| (Watched::Picture, picture)));
        self.jobs.watch(id, files, watch.clone());
        watch
    }

    fn bench(&mut self, id: DeskId) -> Option<&mut Bench> {
        self.benches.iter_mut().find(|bench| bench.id == id)
    }

    fn save_as(&mut self, id: DeskId, path: &Path) {
        let path = if files::is_plan(path) { path.to_owned() } else { files::plan_of(path) };
        let Some(bench) = self.bench(id) else { return };
        let mut document = bench.desk.kept().clone();
        let picture = bench.desk.picture();
        if let (Some(work), Some(picture)) = (document.works.first_mut(), picture) {
            match files::reference_to(&picture, &path) {
                Ok(reference) => work.picture.path = reference,
                Err(error) => {
                    self.said = Some(error.to_string());
                    return;
                }
            }
        }
        self.jobs.save(id, document, path, None, true);
    }

    fn saved(
        &mut self,
        id: DeskId,
        document: sightedge_core::spec::Document,
        plan: &Path,
        result: Result<Stamp, SaveError>,
    ) {
        let quitting = self.quitting;
        let Some(bench) = self.bench(id) else { return };
        let (result, unsure) = match result {
            Err(SaveError::Unsure { failed, stamp }) => (Ok(stamp), Some(failed.to_string())),
            other => (other, None),
        };
        match result {
            Ok(stamp) => {
                let moved = bench.desk.plan != plan;
                if moved {
                    plan.clone_into(&mut bench.desk.plan);
                    bench.desk.replace(document.clone(), "save as");
                }
                let document_id = document.id.clone();
                bench.desk.was_saved(document, stamp);
                let closing = bench.leaving == Leaving::OnceSaved;
                self.keep.let_go(&document_id);
                self.said = Some(match unsure {
                    Some(why) => format!("Saved, but it may not outlast a power cut: {why}"),
                    None => format!("Saved {}.", plan.display()),
                });
                self.settings.opened(&files::named_by(plan));
                self.rewatch(id);
                if closing || quitting {
                    self.close(id);
                }
            }
            Err(error) => {
                bench.leaving = Leaving::Stays;
                self.quitting = false;
                let asking = match &error {
                    SaveError::Changed(_) | SaveError::Exists(_) => {
                        Asking::overwrite(id, plan, &error.to_string())
                    }
                    _ => Asking::tell("The plan could not be saved", &error.to_string()),
                };
                self.asking.push(asking);
            }
        }
    }

    /// Watches the files where they lie now.
    fn rewatch(&mut self, id: DeskId) {
        let Some(index) = self.benches.iter().position(|bench| bench.id == id) else { return };
        self.benches[index].watch.cancel();
        let watch = self.watch(id, &self.benches[index].desk);
        self.benches[index].watch = watch;
    }

    /// The picture is another file, or its bytes changed: the plan follows, as a step that can
    /// be taken back.
    fn relink(&mut self, id: DeskId, path: &Path) {
        let Some(bench) = self.bench(id) else { return };
        let Some(work) = bench.desk.kept().works.first() else { return };
        let (work, old) = (work.id, work.picture.clone());
        let plan = &bench.desk.plan;
        let read = opening::facts(path).and_then(|facts| facts.picture(path, plan));
        let moved = read.as_ref().is_ok_and(|new| new.sha256 == old.sha256);
        let words = match read.map(|picture| bench.desk.run(&Command::Relink(work, picture))) {
            Ok(Ok(())) if moved => format!("The picture is now taken from {}.", path.display()),
            Ok(Ok(())) => "The picture is another one now; it was read again.".to_owned(),
            Ok(Err(refusal)) => refusal.to_string(),
            Err(words) => words,
        };
        self.said = Some(words);
        self.textures.reload(id);
        self.rewatch(id);
    }

    fn changed_outside(&mut self, id: DeskId) {
        let Some(bench) = self.bench(id) else { return };
        let Ok(found) = files::open(&bench.desk.plan) else { return };
        if bench.desk.stamp.as_ref() == Some(&found.stamp) {
            return;
        }
        let title = bench.desk.title();
        if self.asking.iter().any(|asking| asking.is_about(id)) {
            return;
        }
        self.asking.push(Asking::changed(id, &title));
    }

    fn close(&mut self, id: DeskId) {
        if let Some(desk) = self.take_away(id) {
            self.keep.let_go(&desk.kept().id);
        }
    }

    fn take_away(&mut self, id: DeskId) -> Option<Desk> {
        let index = self.benches.iter().position(|bench| bench.id == id)?;
        let bench = self.benches.remove(index);
        bench.watch.cancel();
        self.textures.close(id);
        self.front = self.front.min(self.benches.len().saturating_sub(1));
        Some(bench.desk)
    }

    fn ask(&mut self, context: &Context) {
        let Some(asking) = self.asking.first_mut() else { return };
        let Some(answer) = asking.show(context) else { return };
        self.asking.remove(0);
        context.request_repaint();
        match answer {
            Answer::Nothing => {
                self.quitting = false;
                self.benches.iter_mut().for_each(|bench| bench.leaving = Leaving::Stays);
            }
            Answer::Open(path) => self.jobs.open(path, self.settings.unit()),
            Answer::SaveAs(id, path) => self.save_as(id, &path),
            Answer::Relink(id, path) => self.relink(id, &path),
            Answer::Restore(unsaved) => {
                let stamp = files::open(&unsaved.plan).ok().map(|opened| opened.stamp);
                // Kept safe under this session's name before the other one is let go of.
                if let Err(error) = self.keep.keep_unsaved(&unsaved.document, &unsaved.plan) {
                    self.said = Some(format!(
                        "This work could not be kept safe again: {error}. Save it."
                    ));
                } else {
                    unsaved.forget();
                }
                let mut desk = Desk::new(unsaved.document.clone(), unsaved.plan.clone(), None);
                desk.stamp = stamp;
                // The plan as saved may be open by now: this is the same one.
                let same = self
                    .benches
                    .iter()
                    .find(|bench| bench.desk.plan == desk.plan && !bench.is_work());
                if let Some(id) = same.map(|bench| bench.id) {
                    self.take_away(id);
                }
                self.add(desk);
                if let Some(bench) = self.benches.last_mut() {
                    bench.restored = true;
                }
            }
            Answer::Forget(unsaved) => unsaved.forget(),
            Answer::SaveAndClose(id) => {
                if let Some(bench) = self.bench(id) {
                    bench.leaving = Leaving::OnceSaved;
                    let desk = &bench.desk;
                    let (document, plan, stamp) =
                        (desk.kept().clone(), desk.plan.clone(), desk.stamp.clone());
                    self.jobs.save(id, document, plan, stamp, false);
                }
            }
            // The window may still stay open: then nothing is given up.
            Answer::Discard(id) if self.quitting => {
                if let Some(bench) = self.bench(id) {
                    bench.leaving = Leaving::GivenUp;
                }
            }
            Answer::Discard(id) => self.close(id),
            Answer::Overwrite(id) => {
                if let Some(bench) = self.bench(id) {
                    let (document, plan) = (bench.desk.kept().clone(), bench.desk.plan.clone());
                    self.jobs.save(id, document, plan, None, true);
                }
            }
            Answer::TakeTheirs(id) => {
                if let Some(bench) = self.bench(id)
                    && let Ok(found) = files::open(&bench.desk.plan)
                {
                    bench.desk.replace(found.document.clone(), "plan from disk");
                    bench.desk.was_saved(found.document, found.stamp);
                }
            }
        }
    }

    /// Closing the window asks for each plan that is not saved.
    fn closing(&mut self, context: &Context) {
        let requested = context.input(|input| input.viewport().close_requested());
        if requested && !self.may_quit {
            self.quitting = true;
        }
        if !self.quitting {
            return;
        }
        let asked = self
            .benches
            .iter()
            .position(|bench| bench.is_work() && bench.leaving != Leaving::GivenUp);
        if let Some(index) = asked {
            if requested {
                context.send_viewport_cmd(egui::ViewportCommand::CancelClose);
            }
            if self.asking.is_empty() && self.jobs.pending() == 0 {
                // The question stands over the plan it is about.
                self.bring_forward(index);
                let bench = &self.benches[index];
                self.asking.push(Asking::close(bench.id, &bench.desk.title()));
            }
            return;
        }
        for bench in &self.benches {
            self.keep.let_go(&bench.desk.kept().id);
        }
        self.may_quit = true;
        self.quitting = false;
        context.send_viewport_cmd(egui::ViewportCommand::Close);
    }

    /// Keeps unsaved work safe, a little after it changed.
    fn keep_safe(&mut self, context: &Context) {
        let now = context.input(|input| input.time);
        let mut trouble = None;
        for bench in &mut self.benches {
            let revision = bench.desk.revision();
            if bench.seen_revision != revision {
                bench.seen_revision = revision;
                bench.changed_at = now;
            }
            if bench.kept_safe == revision || bench.desk.is_drafting() {
                continue;
            }
            let left = bench.changed_at + KEEP_AFTER - now;
            if left > 0.0 {
                context.request_repaint_after(Duration::from_secs_f64(left + 0.01));
                continue;
            }
            bench.kept_safe = revision;
            if bench.desk.is_unsaved()
                && let Err(error) = self.keep.keep_unsaved(bench.desk.kept(), &bench.desk.plan)
            {
                trouble =
                    Some(format!("Unsaved work could not be kept safe: {error}. Save it."));
            }
        }
        if trouble.is_some() {
            self.said = trouble;
        }
    }

    /// The window's title.
    fn entitle(&mut self, context: &Context) {
        let title = match self.benches.get(self.front) {
            Some(bench) => {
                let mark = if bench.is_work() { " •" } else { "" };
                format!("{}{mark} – Sightedge", bench.desk.title())
            }
            None => "Sightedge".to_owned(),
        };
        if title != self.title {
            context.send_viewport_cmd(egui::ViewportCommand::Title(title.clone()));
            self.title = title;
        }
        let size = context.input(|input| input.viewport().inner_rect.map(|rect| rect.size()));
        if let Some(size) = size
            && size.x >= 400.0
            && size.y >= 300.0
        {
            self.settings.window = (size.x.round(), size.y.round());
        }
    }
}
