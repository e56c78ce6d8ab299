//! Keys, and carrying out what was asked for.

use egui::Context;
use sightedge_core::command::Refusal;

use super::{App, Save};
use crate::window::display::Display;
use crate::window::question::Question;
use crate::window::request::{Action, AppCommand, Screen};
use crate::window::session::PlanSession;
use crate::window::widgets::{self, regions};
use crate::window::workers::Purpose;
use sightedge_service::demo;

impl App {
    pub(super) fn shortcuts(&self, context: &Context) -> Vec<AppCommand> {
        let mut keyed = Vec::new();
        if !self.asking.is_empty() || self.help.is_some() || self.screen.is_some() {
            return keyed;
        }
        let typing = widgets::is_typing(context);
        // The record is not changed by a key that was meant for a text.
        let texts = self.room == Screen::Editions && context.text_edit_focused();
        context.input_mut(|input| {
            input.events.retain(|event| {
                let egui::Event::Key { key, pressed: true, modifiers, .. } = event else {
                    return true;
                };
                match AppCommand::of_key(*modifiers, *key) {
                    // A field that is typed in undoes its own text.
                    Some(AppCommand::Undo | AppCommand::Redo) if typing || texts => true,
                    Some(command) => {
                        keyed.push(command);
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

    /// Carries out what a screen requested in the frame that has just been drawn.
    pub(super) fn carry_out(&mut self, context: &Context, action: Action) {
        match action {
            Action::Do(command) => self.command(context, command),
            Action::Run(command) => self.change(|session| session.run(&command)),
            Action::Draft(command) => self.change(|session| session.draft(command)),
            Action::RunOn(id, command) => {
                let open = self.open_plan(id);
                if let Some(refusal) = open.and_then(|open| open.session.run(&command).err()) {
                    self.say(refusal.to_string());
                }
            }
            Action::BringForward(mat) => self.with_front(|session| session.bring_forward(mat)),
            Action::Commit => self.with_front(PlanSession::commit_draft),
            Action::Cancel => self.with_front(PlanSession::cancel_draft),
            Action::Tick(step) => {
                let today = sightedge_service::dates::today().to_string();
                self.with_front(|session| session.tick(&step, &today));
            }
            Action::Materials(own) => {
                if let Err(error) = self.storage.keep_materials(&own) {
                    self.say(format!("Your materials could not be saved: {error}"));
                }
                self.use_materials(*own);
            }
            Action::Keep(keep) => self.jobs.keep(keep),
            Action::Words(words) => self.settings.words = *words,
            Action::Fold(screen, folded) => self.settings.fold(screen.label(), folded),
            Action::House(house) => self.settings.studio = *house,
            // Lasts for a frame: the window has set it on the canvas.
            Action::Point(_) => {}
        }
    }

    fn step_text(&mut self, context: &Context, larger: bool) {
        self.settings.step_text(larger);
        self.apply_text(context);
        self.say(format!("Text at {} %.", self.settings.text));
    }

    /// The board at true size, or all of it again.
    fn true_size(&mut self, context: &Context) {
        let Some(open) = self.plans.get_mut(self.front) else { return };
        if open.canvas.is_true_size() {
            open.canvas.fit();
        } else if Display::of(context).scale.is_some() {
            open.canvas.true_size();
        } else {
            self.open_screen();
        }
    }

    /// What is under the pointer magnified, or not.
    fn magnifier(&mut self, context: &Context) {
        self.settings.magnifier = !self.settings.magnifier;
        if self.settings.magnifier && Display::of(context).scale.is_none() {
            self.open_screen();
        }
    }

    /// Closes a plan; where it has work that is not saved, the question stands over it.
    pub(super) fn close_tab(&mut self, index: usize) {
        let Some(open) = self.plans.get(index) else { return };
        if open.is_work() {
            self.asking.push(Question::close(open.id, &open.session.title()));
            self.bring_forward(index);
        } else {
            let id = open.id;
            self.close(id);
        }
    }

    fn with_front(&mut self, act: impl FnOnce(&mut PlanSession)) {
        if let Some(open) = self.plans.get_mut(self.front) {
            act(&mut open.session);
        }
    }

    /// Changes the plan in front; what was said before no longer holds.
    fn change(&mut self, change: impl FnOnce(&mut PlanSession) -> Result<(), Refusal>) {
        if let Some(open) = self.plans.get_mut(self.front) {
            match change(&mut open.session) {
                Ok(()) => self.messages.forget(self.room),
                Err(refusal) => self.say(refusal.to_string()),
            }
        }
    }

    pub(super) fn command(&mut self, context: &Context, command: AppCommand) {
        if self.screens.command(self.room, &command) {
            return;
        }
        let front = self.plans.get_mut(self.front);
        match (command, front) {
            (AppCommand::Open, front) => {
                let near = front.map(|open| open.session.plan.clone());
                self.jobs
                    .ask(Purpose::Open, near.or_else(|| self.settings.recent.first().cloned()));
            }
            (AppCommand::OpenPath(path), _) => self.open_file(path),
            (AppCommand::OpenDemo, _) => match demo::picture(&self.storage) {
                Ok(path) => self.open_file(path),
                Err(words) => self.say(words),
            },
            (AppCommand::Theme, _) => {
                self.settings.dark = !self.settings.dark;
                self.apply_theme(context);
            }
            (AppCommand::Dimensions, _) => {
                // Dimension lines and the frame are two ways to see the board.
                self.settings.dimensions = !self.settings.dimensions || self.settings.frame;
                self.settings.frame = false;
            }
            (AppCommand::Hidden, _) => self.settings.hidden = !self.settings.hidden,
            (AppCommand::Corner, _) => self.settings.corner = !self.settings.corner,
            (AppCommand::Frame, _) => self.settings.frame = !self.settings.frame,
            (AppCommand::Go(room), front) => {
                if front.is_some() || !room.needs_plan() {
                    // What was said of another place is old news.
                    if self.room != room {
                        self.messages.forget(self.room);
                        self.room = room;
                        // The first Tab there goes to its first field.
                        let focused = context.memory(egui::Memory::focused);
                        if let Some(focused) = focused {
                            context.memory_mut(|memory| memory.surrender_focus(focused));
                        }
                    }
                }
            }
            (AppCommand::Monitor, _) => self.open_screen(),
            (AppCommand::TextLarger, _) => self.step_text(context, true),
            (AppCommand::TextSmaller, _) => self.step_text(context, false),
            (AppCommand::TextUsual, _) => {
                self.settings.text = 100;
                self.apply_text(context);
            }
            (AppCommand::Help, _) => self.help = Some(super::help::Page::default()),
            (AppCommand::NextRegion, _) => regions::move_on(context, true),
            (AppCommand::RegionBefore, _) => regions::move_on(context, false),
            (_, None) => {}
            (AppCommand::Save, Some(open)) => {
                open.session.commit_draft();
                let id = open.id;
                self.save(id, Save::Here);
            }
            (AppCommand::SaveAs, Some(open)) => {
                let id = open.id;
                self.ask_where(id);
            }
            (AppCommand::Revert, Some(open)) => match open.session.saved().cloned() {
                Some(saved) => open.session.replace(saved, "revert"),
                None => self.say("This plan has never been saved: use Undo instead."),
            },
            (AppCommand::FindPicture, Some(open)) => {
                self.jobs.ask(Purpose::Relink(open.id), Some(open.session.plan.clone()));
            }
            (AppCommand::Close, Some(_)) => self.close_tab(self.front),
            (AppCommand::Undo, Some(open)) => {
                if let Some(name) = open.session.undo() {
                    self.say(format!("Undid: {name}."));
                }
            }
            (AppCommand::Redo, Some(open)) => {
                if let Some(name) = open.session.redo() {
                    self.say(format!("Redid: {name}."));
                }
            }
            (AppCommand::Fit, Some(open)) => open.canvas.fit(),
            (AppCommand::NextMat, Some(open)) => open.session.step_mat(true),
            (AppCommand::MatBefore, Some(open)) => open.session.step_mat(false),
            (AppCommand::Client, Some(_)) => self.client_view(context),
            (AppCommand::Compare, Some(open)) => open.mats.compare(&open.session),
            (AppCommand::TrueSize, Some(_)) => self.true_size(context),
            (AppCommand::Magnifier, Some(_)) => self.magnifier(context),
            (AppCommand::ZoomIn, Some(open)) => open.canvas.zoom(1.25),
            (AppCommand::ZoomOut, Some(open)) => open.canvas.zoom(0.8),
            (AppCommand::NextPlan, Some(_)) => {
                self.bring_forward((self.front + 1) % self.plans.len());
            }
            (AppCommand::PlanBefore, Some(_)) => {
                let count = self.plans.len();
                self.bring_forward((self.front + count - 1) % count);
            }
        }
    }
}
