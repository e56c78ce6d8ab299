//! Nothing a person made is lost: questions, closing, work kept safe.

use std::time::Duration;

use egui::Context;

use super::{App, KEEP_AFTER, Leaving, Save};
use crate::asking::{Answer, Asking};
use crate::desk::Desk;
use crate::files;
use crate::rooms::Room;

impl App {
    pub(super) fn ask(&mut self, context: &Context) {
        let Some(asking) = self.asking.first_mut() else { return };
        let Some(answer) = asking.show(context) else { return };
        self.asking.remove(0);
        context.request_repaint();
        match answer {
            Answer::Nothing => {
                self.quitting = false;
                self.benches.iter_mut().for_each(|bench| bench.leaving = Leaving::Stays);
            }
            Answer::Open(path) => self.open_file(path),
            Answer::SaveAs(id, path) => self.save_as(id, &path),
            Answer::Relink(id, path) => self.jobs.read(id, path),
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
            Answer::GiveUpTyped => self.rooms.give_up_typed(),
            Answer::SaveAndClose(id) => {
                if let Some(bench) = self.bench(id) {
                    bench.leaving = Leaving::OnceSaved;
                    self.save(id, Save::Here);
                }
            }
            // The window may still stay open: then nothing is given up.
            Answer::Discard(id) if self.quitting => {
                if let Some(bench) = self.bench(id) {
                    bench.leaving = Leaving::GivenUp;
                }
            }
            Answer::Discard(id) => self.close(id),
            Answer::Overwrite(id) => self.save(id, Save::Over),
            Answer::Replace(id, path, onto) => self.save(id, Save::As(path, onto)),
            Answer::AnotherName(id) => self.ask_where(id),
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
    pub(super) fn closing(&mut self, context: &Context) {
        let requested = context.input(|input| input.viewport().close_requested());
        if requested && !self.may_quit {
            self.quitting = true;
        }
        if !self.quitting {
            return;
        }
        if self.rooms.is_typed() {
            if requested {
                context.send_viewport_cmd(egui::ViewportCommand::CancelClose);
            }
            if self.asking.is_empty() {
                // The question stands over the page it is about.
                self.room = Room::Editions;
                self.asking.push(Asking::typed());
            }
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
            self.keep.let_go(&bench.desk.kept().id, &bench.desk.plan);
        }
        self.may_quit = true;
        self.quitting = false;
        context.send_viewport_cmd(egui::ViewportCommand::Close);
    }

    /// Keeps unsaved work safe, a little after it changed.
    pub(super) fn keep_safe(&mut self, context: &Context) {
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
                trouble = Some(not_kept_safe(&error));
            }
        }
        if trouble.is_some() {
            self.said = trouble;
        }
    }
}

/// That work which is not saved is nowhere else either.
pub(super) fn not_kept_safe(error: &std::io::Error) -> String {
    format!("Unsaved work could not be kept safe: {error}. Save it.")
}
