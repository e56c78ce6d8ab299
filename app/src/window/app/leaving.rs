//! Nothing a person made is lost: questions, closing, work kept safe.

use std::time::Duration;

use egui::Context;

use super::{App, KEEP_AFTER, Leaving, Save};
use crate::window::question::{Answer, Question};
use crate::window::request::Screen;
use crate::window::session::PlanSession;
use sightedge_service::files;

impl App {
    pub(super) fn ask(&mut self, context: &Context) {
        let Some(asking) = self.asking.first_mut() else { return };
        let Some(answer) = asking.show(context) else { return };
        self.asking.remove(0);
        context.request_repaint();
        match answer {
            Answer::Nothing => {
                self.quitting = false;
                self.plans.iter_mut().for_each(|open| open.leaving = Leaving::Stays);
            }
            Answer::Open(path) => self.open_file(path),
            Answer::SaveAs(id, path) => self.save_as(id, &path),
            Answer::Relink(id, path) => self.jobs.read(id, path),
            Answer::Profile(path) => self.use_profile(context, &path),
            Answer::Restore(unsaved) => {
                let stamp = files::open(&unsaved.plan).ok().map(|opened| opened.stamp);
                // Kept safe under this session's name before the other one is let go of.
                if let Err(error) = self.storage.keep_unsaved(&unsaved.document, &unsaved.plan)
                {
                    self.say(format!(
                        "This unsaved work could not be backed up: {error}. Save it now."
                    ));
                } else {
                    unsaved.forget();
                }
                let mut session =
                    PlanSession::new(unsaved.document.clone(), unsaved.plan.clone(), None);
                session.stamp = stamp;
                // The plan as saved may be open by now: this is the same one.
                let same = self
                    .plans
                    .iter()
                    .find(|open| open.session.plan == session.plan && !open.is_work());
                if let Some(id) = same.map(|open| open.id) {
                    self.take_away(id);
                }
                self.add(session);
                if let Some(open) = self.plans.last_mut() {
                    open.restored = true;
                }
            }
            Answer::Forget(unsaved) => unsaved.forget(),
            Answer::GiveUpTyped => self.screens.give_up_typed(),
            Answer::SaveAndClose(id) => {
                if let Some(open) = self.open_plan(id) {
                    open.leaving = Leaving::OnceSaved;
                    self.save(id, Save::Here);
                }
            }
            // The window may still stay open: then nothing is given up.
            Answer::Discard(id) if self.quitting => {
                if let Some(open) = self.open_plan(id) {
                    open.leaving = Leaving::GivenUp;
                }
            }
            Answer::Discard(id) => self.close(id),
            Answer::Overwrite(id) => self.save(id, Save::Over),
            Answer::Replace(id, path, onto) => self.save(id, Save::As(path, onto)),
            Answer::AnotherName(id) => self.ask_where(id),
            Answer::TakeTheirs(id) => {
                if let Some(open) = self.open_plan(id)
                    && let Ok(found) = files::open(&open.session.plan)
                {
                    open.session.replace(found.document.clone(), "plan from disk");
                    open.session.was_saved(found.document, found.stamp);
                }
            }
        }
    }

    /// Closing the window asks for each plan that is not saved.
    pub(super) fn closing(&mut self, context: &Context) {
        let requested = context.input(|input| input.viewport().close_requested());
        if requested && !self.may_quit {
            self.quitting = true;
        }
        if !self.quitting {
            return;
        }
        if self.screens.is_typed() {
            if requested {
                context.send_viewport_cmd(egui::ViewportCommand::CancelClose);
            }
            if self.asking.is_empty() {
                // The question stands over the page it is about.
                self.room = Screen::Editions;
                self.asking.push(Question::typed());
            }
            return;
        }
        let asked = self
            .plans
            .iter()
            .position(|open| open.is_work() && open.leaving != Leaving::GivenUp);
        if let Some(index) = asked {
            if requested {
                context.send_viewport_cmd(egui::ViewportCommand::CancelClose);
            }
            if self.asking.is_empty() && self.jobs.pending() == 0 {
                // The question stands over the plan it is about.
                self.bring_forward(index);
                let open = &self.plans[index];
                self.asking.push(Question::close(open.id, &open.session.title()));
            }
            return;
        }
        for open in &self.plans {
            self.storage.let_go(&open.session.kept().id, &open.session.plan);
        }
        self.may_quit = true;
        self.quitting = false;
        context.send_viewport_cmd(egui::ViewportCommand::Close);
    }

    /// Keeps unsaved work safe, a little after it changed.
    pub(super) fn keep_safe(&mut self, context: &Context) {
        let now = context.input(|input| input.time);
        let mut trouble = None;
        for open in &mut self.plans {
            let revision = open.session.revision();
            if open.seen_revision != revision {
                open.seen_revision = revision;
                open.changed_at = now;
            }
            if open.kept_safe == revision || open.session.is_drafting() {
                continue;
            }
            let left = open.changed_at + KEEP_AFTER - now;
            if left > 0.0 {
                context.request_repaint_after(Duration::from_secs_f64(left + 0.01));
                continue;
            }
            open.kept_safe = revision;
            if open.session.is_unsaved()
                && let Err(error) =
                    self.storage.keep_unsaved(open.session.kept(), &open.session.plan)
            {
                trouble = Some(not_kept_safe(&error));
            }
        }
        if let Some(trouble) = trouble {
            self.say(trouble);
        }
    }
}

/// That work which is not saved is nowhere else either.
pub(super) fn not_kept_safe(error: &std::io::Error) -> String {
    format!("Unsaved work could not be backed up: {error}. Save it now.")
}
