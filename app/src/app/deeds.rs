//! Keys, and carrying out what was asked for.

use egui::Context;

use super::{App, Save};
use crate::action::{Action, Deed};
use crate::asking::Asking;
use crate::jobs::Purpose;
use crate::rooms::Room;
use crate::{demo, widgets};

impl App {
    pub(super) fn shortcuts(&self, context: &Context) -> Vec<Deed> {
        let mut keyed = Vec::new();
        if !self.asking.is_empty() {
            return keyed;
        }
        let typing = widgets::is_typing(context);
        // The record is not changed by a key that was meant for a text.
        let texts = self.room == Room::Editions && context.text_edit_focused();
        context.input_mut(|input| {
            input.events.retain(|event| {
                let egui::Event::Key { key, pressed: true, modifiers, .. } = event else {
                    return true;
                };
                match Deed::of_key(*modifiers, *key) {
                    // A field that is typed in takes its own text back.
                    Some(Deed::Undo | Deed::Redo) if typing || texts => true,
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

    pub(super) fn carry_out(&mut self, context: &Context, action: Action) {
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
        if let Action::RunOn(id, command) = action {
            let refused = self.bench(id).and_then(|bench| bench.desk.run(&command).err());
            if let Some(refusal) = refused {
                self.said = Some(refusal.to_string());
            }
            return;
        }
        if let Action::Words(words) = action {
            self.settings.words = *words;
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
            Action::Select(_)
            | Action::Point(_)
            | Action::RunOn(..)
            | Action::Materials(_)
            | Action::Words(_)
            | Action::Do(_) => Ok(()),
        };
        if let Err(refusal) = outcome {
            self.said = Some(refusal.to_string());
        }
    }

    pub(super) fn deed(&mut self, context: &Context, deed: Deed) {
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
            (Deed::OpenPath(path), _) => self.open_file(path),
            (Deed::OpenDemo, _) => match demo::picture(&self.keep) {
                Ok(path) => self.open_file(path),
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
                    // What was said of another place is old news.
                    if self.room != room {
                        self.said = None;
                    }
                    self.room = room;
                }
            }
            (_, None) => {}
            (Deed::Save, Some(bench)) => {
                bench.desk.keep();
                let id = bench.id;
                self.save(id, Save::Here);
            }
            (Deed::SaveAs, Some(bench)) => {
                let id = bench.id;
                self.ask_where(id);
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
}
