//! What is shown in a frame: the line at the foot, the places of work, the plan in front.

use egui::{Context, Ui};
use sightedge_core::material::{OwnTables, Tables};
use sightedge_service::settings::Settings;
use sightedge_service::storage::Storage;

use super::{App, names, sessions};
use crate::window::canvas::Shows;
use crate::window::context::{Requests, ScreenContext, StorageView, View};
use crate::window::request::{Action, AppCommand, Screen};
use crate::window::screens::{self, mat};
use crate::window::session::{PlanSession, SessionId};
use crate::window::textures::Shown;
use crate::window::widgets::regions::{self, Region};
use crate::window::workers::Decoder;
use crate::window::{gesture, theme, widgets};

/// What places of work may look at. Apart from the window itself, of which they change a part.
fn screen_context<'a>(
    sessions: &'a [(SessionId, &'a PlanSession)],
    front: usize,
    pictures: &'a [Shown],
    (settings, storage, own, tables): (&'a Settings, &'a Storage, &'a OwnTables, &'a Tables),
    decoder: &'a Decoder,
) -> ScreenContext<'a> {
    ScreenContext {
        sessions,
        front: (!sessions.is_empty()).then_some(front),
        pictures,
        settings,
        storage: StorageView::new(storage),
        own,
        tables,
        decoder,
        prints: None,
    }
}

impl App {
    pub(super) fn status_line(&mut self, ui: &mut Ui) {
        ui.horizontal_centered(|ui| {
            let open = self.plans.get(self.front);
            let said = self.messages.of(self.room);
            let text = match (said, open) {
                (Some(said), _) => said.to_owned(),
                (None, Some(open)) => {
                    let under = open.canvas.hint().filter(|_| self.room == Screen::Mat);
                    let room = ui.available_width();
                    let fit = |words: &str| {
                        let font = egui::FontId::proportional(theme::SMALL);
                        let ink = egui::Color32::PLACEHOLDER;
                        let words = words.to_owned();
                        ui.painter().layout_no_wrap(words, font, ink).size().x <= room
                    };
                    let hand = || gesture::line_of(self.screens.gestures(self.room), fit);
                    let hand = under.map_or_else(hand, ToOwned::to_owned);
                    crate::window::canvas::for_keyboard(ui.ctx(), &hand)
                }
                (None, None) => String::new(),
            };
            // What has just been done or refused is said aloud, what can be done quietly.
            let shown = if said.is_some() {
                egui::RichText::new(&text)
            } else {
                widgets::quiet(ui, &text)
            };
            if let Some(open) = open {
                let now = ui.input(|input| input.time);
                match widgets::opening(ui, self.textures.opening(open.id, now)) {
                    Some(true) => self.textures.go_on(open.id),
                    Some(false) => self.textures.stop(open.id),
                    None => {}
                }
            }
            // Where there is no room for all of it, it is read by resting on it.
            ui.add(egui::Label::new(shown).truncate());
        });
    }

    /// The list of places of work.
    pub(super) fn navigation(&mut self, ui: &mut Ui, requests: &mut Requests) {
        let any_open = !self.plans.is_empty();
        let sessions = sessions(&self.plans);
        let cx = screen_context(
            &sessions,
            self.front,
            &[],
            (&self.settings, &self.storage, &self.own, &self.tables),
            self.jobs.decoder(),
        );
        let room = self.room;
        let pressed = regions::region(ui, Region::Places, |ui| {
            screens::navigation(ui, room, any_open, |room| self.screens.waits(room, cx))
        });
        requests.actions.extend(pressed.map(|room| Action::Do(AppCommand::Go(room))));
    }

    /// What the studio's record has to say of the plan in front.
    pub(super) fn poll_record(&mut self, context: &Context, requests: &mut Requests) {
        let sessions = sessions(&self.plans);
        let cx = screen_context(
            &sessions,
            self.front,
            &[],
            (&self.settings, &self.storage, &self.own, &self.tables),
            self.jobs.decoder(),
        );
        self.screens.poll_record(context, cx, requests);
    }

    /// The place of work in front, other than the mat.
    pub(super) fn place(&mut self, ui: &mut Ui, requests: &mut Requests) {
        let front = self.plans.get(self.front);
        let pictures = front.map(|open| self.textures.shown(open.id)).unwrap_or_default();
        let sessions = sessions(&self.plans);
        let cx = screen_context(
            &sessions,
            self.front,
            &pictures,
            (&self.settings, &self.storage, &self.own, &self.tables),
            self.jobs.decoder(),
        );
        self.screens.show(ui, self.room, cx, requests);
        if let Some(open) = self.plans.get(self.front)
            && let Some(path) = open.session.picture()
            && let Some(wanted) =
                self.screens.wanted(self.room, &open.session, ui.pixels_per_point())
        {
            self.textures.want(&mut self.jobs, ui.ctx(), open.id, &path, wanted);
        }
    }

    /// The mat, and the picture it asks for.
    pub(super) fn mat(&mut self, ui: &mut Ui, requests: &mut Requests) {
        let Some(open) = self.plans.get_mut(self.front) else { return };
        let at_bench = self.screens.at_bench(&open.session, &self.settings);
        let shows = Shows {
            dimensions: self.settings.dimensions,
            hidden: self.settings.hidden,
            corner: self.settings.corner,
            frame: self.settings.frame,
            surround: self.settings.surround,
            vision: self.vision,
            magnifier: self.settings.magnifier,
        };
        self.textures.see_as(self.vision);
        let scene = mat::Scene {
            id: open.id,
            session: &open.session,
            about: self.textures.about(open.id),
            at_bench: at_bench.as_ref(),
            pictures: &self.textures.shown(open.id),
            error: self.textures.error(open.id),
            shows,
            folded: self.settings.is_folded(Screen::Mat.label()),
        };
        mat::show(ui, (&mut open.canvas, &mut open.mats), scene, requests);
        let lost = self.textures.error(open.id).is_some();
        if lost
            && !open.looked_for
            && let (Some(path), Some(work)) =
                (open.session.picture(), open.session.kept().works.first())
            && !path.exists()
        {
            open.looked_for = true;
            let sha256 = work.picture.sha256.clone();
            self.jobs.find(open.id, open.session.plan.clone(), sha256);
        }
        if let (Some(path), Some(view)) =
            (open.session.picture(), View::of(&open.session, None))
            && let Some(wanted) = open.canvas.wanted(view.window.image, ui.pixels_per_point())
        {
            self.textures.want(&mut self.jobs, ui.ctx(), open.id, &path, wanted);
        }
    }

    /// The window's title.
    pub(super) fn set_title(&mut self, context: &Context) {
        let title = match self.plans.get(self.front) {
            Some(open) => {
                let mark = if open.is_work() { " •" } else { "" };
                let name = names(&self.plans).swap_remove(self.front);
                format!("{name}{mark} – Sightedge")
            }
            None => "Sightedge".to_owned(),
        };
        if title != self.title {
            context.send_viewport_cmd(egui::ViewportCommand::Title(title.clone()));
            self.title = title;
        }
        let size = context.input(|input| input.viewport().inner_rect.map(|rect| rect.size()));
        if let Some(size) = size
            && size.x >= 200.0
            && size.y >= 150.0
        {
            // As large again at the next start, whatever the size of text.
            let size = size * context.zoom_factor();
            self.settings.window = (size.x.round(), size.y.round());
        }
    }
}
