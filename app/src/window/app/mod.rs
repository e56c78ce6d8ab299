//! The window: open plans, what is asked of them, and what comes back from the jobs.

mod client;
mod commands;
mod documents;
mod frame;
mod help;
mod leaving;
mod messages;
mod monitor;
pub(crate) mod start;
mod tabs;
pub(crate) mod top;

use std::path::PathBuf;
use std::sync::Arc;

use egui::{Context, Frame, Panel, Ui};
use sightedge_core::material::{OwnTables, Tables};
use sightedge_pictures::CancelToken;
use sightedge_pictures::colour::Vision;

use crate::window::app::messages::Messages;
use crate::window::app::start::Start;
use crate::window::app::tabs::{Tab, TabEvent};
use crate::window::app::top::Top;
use crate::window::canvas::Canvas;
use crate::window::context::Requests;
use crate::window::question::Question;
use crate::window::request::{Action, Screen};
use crate::window::screens::Screens;
use crate::window::screens::mat::Mats;
use crate::window::session::{PlanSession, SessionId};
use crate::window::textures::{Held, Textures};
use crate::window::theme;
use crate::window::widgets::regions;
use crate::window::workers::{Jobs, Onto};
use sightedge_service::monitors::Monitor;
use sightedge_service::plan_names;
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
    mats: Mats,
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
    messages: Messages,
    help: Option<help::Page>,
    /// Whether this is the first start, at which the window says what to do.
    greeting: bool,
    client: Option<client::ClientView>,
    next: u64,
    quitting: bool,
    may_quit: bool,
    title: String,
    vision: Option<Vision>,
    room: Screen,
    screens: Screens,
    own: OwnTables,
    tables: Arc<Tables>,
    monitors: Vec<Monitor>,
    /// What the system calls the monitor that the window stands on.
    output: Option<String>,
    screen: Option<monitor::Dialog>,
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
            messages: Messages::default(),
            help: None,
            greeting: false,
            client: None,
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
            monitors: Vec::new(),
            output: None,
            screen: None,
        };
        let (own, tables, trouble) = app.storage.tables();
        app.own = own;
        app.tables = Arc::new(tables);
        if let Some(words) = trouble {
            app.asking.push(Question::tell("Your materials", &words));
        }
        // Keys change the size of text, not egui's own ones: it is remembered.
        context.options_mut(|options| options.zoom_with_keyboard = false);
        app.apply_theme(context);
        app.apply_text(context);
        // Once, where it can be remembered that it was shown.
        app.greeting = !app.settings.greeted && app.storage.file("settings.ron").is_some();
        app.settings.greeted = true;
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

    /// All is as large as the size of text asks for.
    fn apply_text(&self, context: &Context) {
        context.set_zoom_factor(self.settings.text_scale());
    }

    /// Says something in the place in front.
    fn say(&mut self, words: impl Into<String>) {
        self.messages.say(self.room, words);
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
        self.messages.of(self.room)
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
        self.follow_monitor(context);
        self.closing(context);
        self.keep_safe(context);
        if self.settings != self.settings_kept {
            self.settings_kept = self.settings.clone();
            if let Err(error) = self.storage.keep_settings(&self.settings) {
                self.say(format!("The window’s settings could not be saved: {error}"));
            }
        }
    }

    /// Shows the window and carries out what was asked.
    ///
    /// What is shown first has the Tab key first: the place in front, then the list of places,
    /// the line at the foot and the one at the top.
    pub fn ui(&mut self, ui: &mut Ui) {
        let context = ui.ctx().clone();
        let mut requests = Requests::default();
        let keyed = self.shortcuts(&context);
        self.listen(&context, &mut requests);

        let palette = theme::palette(ui);
        let bar = Frame::new().fill(palette.panel).inner_margin(egui::Margin::symmetric(8, 4));
        let room = |ui: &mut Ui| ui.max_rect();
        let top = Panel::top("top").frame(bar).exact_size(37.0).show(ui, room).inner;
        let foot = Panel::bottom("foot").frame(bar).exact_size(28.0).show(ui, room).inner;
        let places = Panel::left("places")
            .frame(bar.inner_margin(egui::Margin { left: 8, right: 8, top: 12, bottom: 8 }))
            .resizable(false)
            .exact_size(RAIL)
            .show(ui, room)
            .inner;
        let open = !self.plans.is_empty();
        if open && self.greeting && self.room == Screen::Mat {
            self.greeting = !start::welcome(ui);
        }
        if open && self.room == Screen::Mat {
            self.mat(ui, &mut requests);
        } else if open || !self.room.needs_plan() {
            self.place(ui, &mut requests);
        } else {
            let fill = Frame::new().fill(palette.panel);
            let greeting = self.greeting;
            let recent = &self.settings.recent;
            egui::CentralPanel::default().frame(fill).show(ui, |ui| {
                start::start(ui, &mut self.start, recent, greeting, &mut requests);
            });
        }
        let inside = |ui: &mut Ui, rect| ui.new_child(egui::UiBuilder::new().max_rect(rect));
        self.navigation(&mut inside(ui, places), &mut requests);
        self.status_line(&mut inside(ui, foot));
        self.top_line(&mut inside(ui, top), &mut requests);
        regions::settle(&context);
        self.help(&context);
        self.screen_dialog(&context);
        self.ask(&context);
        if let Some(said) = requests.said {
            self.say(said);
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
        // Last: what the maker has just dragged is there in the same frame.
        self.client(&context);
    }

    /// The line at the top.
    fn top_line(&mut self, ui: &mut Ui, requests: &mut Requests) {
        let names = names(&self.plans);
        let tabs: Vec<Tab> = self
            .plans
            .iter()
            .zip(names)
            .map(|(open, name)| Tab {
                id: open.id,
                name,
                path: open.session.plan.display().to_string(),
                unsaved: open.is_work(),
            })
            .collect();
        let top = Top {
            tabs: &tabs,
            front: (!self.plans.is_empty()).then_some(self.front),
            board: self.room == Screen::Mat,
            saved: self.session().is_some_and(|session| session.saved().is_some()),
            true_size: self
                .plans
                .get(self.front)
                .is_some_and(|open| open.canvas.is_true_size()),
            steps: match self.screens.steps(self.room) {
                Some(steps) => steps,
                None => self.session().map(PlanSession::steps).unwrap_or_default(),
            },
        };
        match top::top(ui, top, &mut self.settings, &mut self.vision, requests) {
            Some(TabEvent::Front(index)) => self.bring_forward(index),
            Some(TabEvent::Close(index)) => self.close_tab(index),
            None => {}
        }
    }

    /// What the studio's record has to say belongs to its own place, but for what was asked of
    /// it at the bench.
    fn listen(&mut self, context: &Context, requests: &mut Requests) {
        self.poll_record(context, requests);
        if let Some(said) = requests.said.take() {
            let bench = self.room == Screen::Bench;
            self.messages.say(if bench { Screen::Bench } else { Screen::Editions }, said);
        }
    }

    /// Brings a plan to the front; what was said of another is no longer true of this one.
    fn bring_forward(&mut self, index: usize) {
        if self.front != index {
            self.front = index;
            self.messages.forget(self.room);
        }
    }
}

/// What the open plans are called, told apart.
fn names(plans: &[OpenPlan]) -> Vec<String> {
    plan_names::told_apart(
        plans.iter().map(|open| (open.session.document(), open.session.plan.as_path())),
    )
}
