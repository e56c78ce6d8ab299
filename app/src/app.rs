//! The window: open plans, what is asked of them, and what comes back from the jobs.

mod deeds;
mod documents;
mod leaving;
mod shown;

use std::path::PathBuf;
use std::sync::Arc;

use egui::{Context, Frame, Panel, Ui};
use sightedge_core::material::{Own, Tables};
use sightedge_pictures::Watch;
use sightedge_pictures::colour::Vision;

use crate::action::Action;
use crate::asking::Asking;
use crate::canvas::Canvas;
use crate::desk::Desk;
use crate::jobs::{DeskId, Jobs, Onto};
use crate::panels::{self, Asks, Start, Tab, Top};
use crate::rooms::{Room, Rooms};
use crate::state::{Keep, Settings};
use crate::textures::{Held, Textures};
use crate::theme;

/// What becomes of a plan that is open.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
enum Leaving {
    Stays,
    /// It closes once it is saved.
    OnceSaved,
    /// Its changes are given up once the window has closed.
    GivenUp,
}

/// A save that was asked for.
#[derive(Clone, Debug)]
enum Save {
    /// Where the plan lies, over what was last seen there.
    Here,
    /// The same over whatever is there: the person was asked.
    Over,
    /// At another place, where it lies from then on.
    As(PathBuf, Onto),
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
    /// What is being saved, and what is to be saved after that: one save at a time, so that
    /// none meets the file that another has just written.
    saving: bool,
    waiting: Vec<Save>,
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

impl Drop for App {
    fn drop(&mut self) {
        self.textures.call_off();
        self.jobs.close();
    }
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
        let (own, tables, trouble) = app.keep.tables();
        app.own = own;
        app.tables = Arc::new(tables);
        if let Some(words) = trouble {
            app.asking.push(Asking::tell("Your materials", &words));
        }
        app.dress(context);
        for unsaved in app.keep.left_unsaved() {
            app.asking.push(Asking::restore(unsaved));
        }
        for file in files {
            app.open_file(file);
        }
        app
    }

    /// Opens a plan, or begins one for a picture.
    fn open_file(&mut self, path: PathBuf) {
        // So that the list of what was open last names each place once.
        let path = std::path::absolute(&path).unwrap_or(path);
        self.jobs.open(path, self.settings.unit(), Arc::clone(&self.tables));
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

    /// Answers the next dialog, which is not shown then: see [`Jobs::answer`].
    pub fn answer_dialog(&mut self, path: Option<PathBuf>) {
        self.jobs.answer(path);
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
            // A folder is a show: its plans are cut together.
            if path.is_dir() {
                self.room = Room::Sheets;
                self.rooms.gather(context, path);
            } else {
                self.open_file(path);
            }
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
        self.attend(&context, &mut asks);

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
            steps: match self.rooms.steps(self.room) {
                Some(steps) => steps,
                None => self.desk().map(Desk::steps).unwrap_or_default(),
            },
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
}
