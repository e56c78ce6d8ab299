//! The window: open plans, what is asked of them, and what comes back from the jobs.

mod commands;
mod documents;
mod frame;
mod leaving;
pub(crate) mod start;
pub(crate) mod top;

use std::path::PathBuf;
use std::sync::Arc;

use egui::{Context, Frame, Panel, Ui};
use sightedge_core::material::{OwnTables, Tables};
use sightedge_pictures::CancelToken;
use sightedge_pictures::colour::Vision;

use crate::window::app::start::Start;
use crate::window::app::top::{Tab, Top};
use crate::window::canvas::Canvas;
use crate::window::context::Requests;
use crate::window::question::Question;
use crate::window::request::{Action, Screen};
use crate::window::screens::Screens;
use crate::window::session::{PlanSession, SessionId};
use crate::window::textures::{Held, Textures};
use crate::window::theme;
use crate::window::workers::{Jobs, Onto};
use sightedge_service::settings::Settings;
use sightedge_service::storage::Storage;

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
struct OpenPlan {
    id: SessionId,
    session: PlanSession,
    canvas: Canvas,
    token: CancelToken,
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

impl OpenPlan {
    /// Whether closing it would lose something that a person made.
    fn is_work(&self) -> bool {
        let touched = self.restored || self.session.steps() != (None, None);
        self.session.is_unsaved() && touched
    }
}

/// The window.
#[derive(Debug)]
pub struct App {
    plans: Vec<OpenPlan>,
    front: usize,
    jobs: Jobs,
    textures: Textures,
    settings: Settings,
    settings_kept: Settings,
    storage: Storage,
    start: Start,
    asking: Vec<Question>,
    said: Option<String>,
    next: u64,
    quitting: bool,
    may_quit: bool,
    title: String,
    vision: Option<Vision>,
    room: Screen,
    screens: Screens,
    own: OwnTables,
    tables: Arc<Tables>,
}

/// How long a change waits until it is kept safe, in seconds.
const KEEP_AFTER: f64 = 1.0;
/// The width of the list of places of work, in points.
const RAIL: f32 = 108.0;

fn sessions(plans: &[OpenPlan]) -> Vec<(SessionId, &PlanSession)> {
    plans.iter().map(|open| (open.id, &open.session)).collect()
}

impl Drop for App {
    fn drop(&mut self) {
        self.textures.cancel_all();
        self.jobs.close();
    }
}

impl App {
    /// A window with `files` to open.
    pub fn new(context: &Context, storage: Storage, files: Vec<PathBuf>) -> Self {
        theme::install(context);
        let settings = storage.settings();
        let mut app = Self {
            plans: Vec::new(),
            front: 0,
            jobs: Jobs::new(context, storage.clone()),
            textures: Textures::default(),
            settings_kept: settings.clone(),
            settings,
            start: Start::default(),
            asking: Vec::new(),
            said: None,
            next: 0,
            quitting: false,
            may_quit: false,
            title: String::new(),
            vision: None,
            room: Screen::default(),
            screens: Screens::new(&storage),
            storage,
            own: OwnTables::default(),
            tables: Arc::new(Tables::shipped().clone()),
        };
        let (own, tables, trouble) = app.storage.tables();
        app.own = own;
        app.tables = Arc::new(tables);
        if let Some(words) = trouble {
            app.asking.push(Question::tell("Your materials", &words));
        }
        app.apply_theme(context);
        for unsaved in app.storage.left_unsaved() {
            app.asking.push(Question::restore(unsaved));
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
    fn use_materials(&mut self, own: OwnTables) {
        self.tables = Arc::new(Tables::shipped().clone().with(own.tables()));
        self.own = own;
        for open in &mut self.plans {
            open.session.use_tables(Arc::clone(&self.tables));
        }
    }

    fn apply_theme(&self, context: &Context) {
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
    pub fn session(&self) -> Option<&PlanSession> {
        self.plans.get(self.front).map(|open| &open.session)
    }

    /// How many plans are open.
    pub fn open_plans(&self) -> usize {
        self.plans.len()
    }

    /// Jobs that are not done.
    pub fn pending(&self) -> usize {
        self.jobs.pending() + self.screens.pending()
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
                self.room = Screen::Cutting;
                self.screens.gather(context, path);
            } else {
                self.open_file(path);
            }
        }
        self.closing(context);
        self.keep_safe(context);
        if self.settings != self.settings_kept {
            self.settings_kept = self.settings.clone();
            if let Err(error) = self.storage.keep_settings(&self.settings) {
                self.said = Some(format!("The window's settings could not be kept: {error}"));
            }
        }
    }

    /// Shows the window and carries out what was asked.
    pub fn ui(&mut self, ui: &mut Ui) {
        let context = ui.ctx().clone();
        let mut requests = Requests::default();
        let keyed = self.shortcuts(&context);
        self.poll_record(&context, &mut requests);

        let palette = theme::palette(ui);
        let bar = Frame::new().fill(palette.panel).inner_margin(egui::Margin::symmetric(8, 4));
        let tabs: Vec<Tab> = self
            .plans
            .iter()
            .map(|open| Tab { title: open.session.title(), unsaved: open.is_work() })
            .collect();
        let open = !self.plans.is_empty();
        let top = Top {
            tabs: &tabs,
            front: open.then_some(self.front),
            board: self.room == Screen::Mat,
            saved: self.session().is_some_and(|session| session.saved().is_some()),
            steps: match self.screens.steps(self.room) {
                Some(steps) => steps,
                None => self.session().map(PlanSession::steps).unwrap_or_default(),
            },
        };
        let picked = Panel::top("top")
            .frame(bar)
            .show(ui, |ui| {
                top::top(ui, top, &mut self.settings, &mut self.vision, &mut requests)
            })
            .inner;
        if let Some(picked) = picked {
            self.bring_forward(picked);
        }
        self.status_line(ui, bar);
        self.navigation(ui, &mut requests);
        if open && self.room == Screen::Mat {
            self.mat(ui, &mut requests);
        } else if open || !self.room.needs_plan() {
            self.place(ui, &mut requests);
        } else {
            let fill = Frame::new().fill(palette.panel);
            egui::CentralPanel::default().frame(fill).show(ui, |ui| {
                start::start(ui, &mut self.start, &self.settings.recent, &mut requests);
            });
        }
        self.ask(&context);
        if let Some(said) = requests.said {
            self.said = Some(said);
        }
        // After the fields: what was typed in one is kept before it is saved.
        requests.actions.extend(keyed.into_iter().map(Action::Do));
        let pointed = requests.actions.iter().rev().find_map(|action| match action {
            Action::Point(place) => Some(*place),
            _ => None,
        });
        if let Some(open) = self.plans.get_mut(self.front)
            && open.canvas.pointed != pointed
        {
            open.canvas.pointed = pointed;
            context.request_repaint();
        }
        for action in requests.actions {
            self.carry_out(&context, action);
        }
        self.set_title(&context);
    }

    /// Brings a plan to the front; what was said of another is no longer true of this one.
    fn bring_forward(&mut self, index: usize) {
        if self.front != index {
            self.front = index;
            self.said = None;
        }
    }
}
