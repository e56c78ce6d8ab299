//! Plans that come and go: opened, saved, closed, their pictures found again.

use std::path::Path;
use std::sync::Arc;
use std::time::Duration;

use egui::Context;
use sightedge_core::command::Command;
use sightedge_pictures::Watch;

use super::leaving::not_kept_safe;
use super::{App, Bench, Leaving, Save};
use crate::asking::Asking;
use crate::canvas::Canvas;
use crate::desk::Desk;
use crate::files::{self, SaveError};
use crate::jobs::{DeskId, Done, Onto, Opened, Purpose, Saved, Watched};
use crate::opening::PictureFacts;

impl App {
    pub(super) fn take(&mut self, context: &Context, done: Done) {
        match done {
            Done::Opened(path, result) => match *result {
                Ok(opened) => self.opened(&path, opened),
                Err(words) => {
                    self.asking.push(Asking::tell("This could not be opened", &words));
                }
            },
            Done::Chosen(purpose, Some(path), _) => match purpose {
                Purpose::Open => self.open_file(path),
                Purpose::SaveAs(id) => self.save_as(id, &path),
                Purpose::Relink(id) => self.jobs.read(id, path),
            },
            // No dialog answers that fast: the system has none.
            Done::Chosen(purpose, None, took) if took < Duration::from_millis(150) => {
                let near = self.desk().map(|desk| desk.plan.clone());
                self.asking.push(Asking::path(purpose, near));
            }
            Done::Chosen(..) | Done::Found(_, None) => {}
            Done::Saved(id, saved) => self.saved(id, *saved),
            Done::Picture(id, ask, brought) => {
                self.textures.take(context, id, ask, brought);
            }
            Done::Changed(id, Watched::Picture) => {
                self.textures.reload(id);
                let path = self.bench(id).and_then(|bench| bench.desk.picture());
                if let Some(path) = path.filter(|path| path.exists()) {
                    self.jobs.read(id, path);
                }
            }
            Done::Found(id, Some(path)) => self.jobs.read(id, path),
            Done::Read(id, path, facts) => self.relink(id, &path, *facts),
            Done::Changed(id, Watched::Plan) => self.changed_outside(id),
        }
    }

    pub(super) fn opened(&mut self, path: &Path, opened: Opened) {
        let same = |bench: &Bench| files::are_one(&bench.desk.plan, &opened.plan);
        let same = self.benches.iter().position(same);
        self.settings.opened(&files::named_by(path));
        self.said = opened.said;
        if let Some(index) = same {
            self.front = index;
            return;
        }
        let desk = Desk::new(opened.document, opened.plan, opened.stamp);
        self.add(desk);
    }

    pub(super) fn add(&mut self, mut desk: Desk) {
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
            saving: false,
            waiting: Vec::new(),
            looked_for: false,
            restored: false,
            desk,
        });
        self.front = self.benches.len() - 1;
    }

    pub(super) fn watch(&self, id: DeskId, desk: &Desk) -> Watch {
        let watch = Watch::default();
        let mut files = vec![(Watched::Plan, desk.plan.clone())];
        files.extend(desk.picture().map(|picture| (Watched::Picture, picture)));
        self.jobs.watch(id, files, watch.clone());
        watch
    }

    pub(super) fn bench(&mut self, id: DeskId) -> Option<&mut Bench> {
        self.benches.iter_mut().find(|bench| bench.id == id)
    }

    /// Asks where a plan is to be saved under another name.
    pub(super) fn ask_where(&mut self, id: DeskId) {
        if let Some(bench) = self.bench(id) {
            let near = bench.desk.plan.clone();
            self.jobs.ask(Purpose::SaveAs(id), Some(near));
        }
    }

    /// Saves under another name, whoever chose it; what lies there is written over only when
    /// the person says so.
    pub(super) fn save_as(&mut self, id: DeskId, path: &Path) {
        let path = if files::is_plan(path) { path.to_owned() } else { files::plan_of(path) };
        let path = std::path::absolute(&path).unwrap_or(path);
        let Some(bench) = self.bench(id) else { return };
        bench.desk.keep();
        let (title, own) = (bench.desk.title(), files::are_one(&bench.desk.plan, &path));
        if own && bench.desk.stamp.is_some() {
            self.save(id, Save::Here);
            return;
        }
        let open = |bench: &&Bench| bench.id != id && files::are_one(&bench.desk.plan, &path);
        if let Some(other) = self.benches.iter().find(open) {
            let words = format!(
                "{} is the plan for {}, which is open here in a tab of its own. Close that tab \
                 first, or choose another name.",
                path.display(),
                other.desk.title()
            );
            self.asking.push(Asking::tell("That plan is open", &words));
            return;
        }
        match files::there(&path) {
            Some(there) => self.asking.push(Asking::replace(id, &title, &path, there)),
            None => self.save(id, Save::As(path, Onto::Nothing)),
        }
    }

    /// Saves; a save that is under way is waited for.
    pub(super) fn save(&mut self, id: DeskId, save: Save) {
        let Some(bench) = self.bench(id) else { return };
        if bench.saving {
            // Each in its turn: a new name that was chosen is not lost to a further save.
            if !matches!((bench.waiting.last(), &save), (Some(Save::Here), Save::Here)) {
                bench.waiting.push(save);
            }
            return;
        }
        let desk = &bench.desk;
        let (mut document, own) = (desk.kept().clone(), desk.plan.clone());
        let (plan, onto, moves) = match save {
            Save::Here => {
                let onto = desk.stamp.clone().map_or(Onto::Nothing, Onto::Seen);
                (own, onto, false)
            }
            Save::Over => (own, Onto::Anything, false),
            Save::As(path, onto) => {
                if let Err(error) = files::move_references(&mut document, &own, &path) {
                    self.said = Some(error.to_string());
                    return;
                }
                (path, onto, true)
            }
        };
        bench.saving = true;
        self.jobs.save(id, document, plan, onto, moves);
    }

    fn saved(&mut self, id: DeskId, saved: Saved) {
        let quitting = self.quitting;
        let Saved { document, plan, moves, result } = saved;
        let Some(bench) = self.bench(id) else { return };
        bench.saving = false;
        let mut waiting = std::mem::take(&mut bench.waiting);
        let (result, unsure) = match result {
            Err(SaveError::Unsure { failed, stamp }) => (Ok(stamp), Some(failed.to_string())),
            other => (other, None),
        };
        match result {
            Ok(stamp) => {
                let before = bench.desk.plan.clone();
                if moves {
                    bench.desk.moved_to(&plan);
                }
                let document_id = document.id.clone();
                bench.desk.was_saved(document, stamp);
                let closing = bench.leaving == Leaving::OnceSaved;
                // What was changed while it was being saved is kept on.
                let newer = bench.desk.is_unsaved().then(|| bench.desk.kept().clone());
                let unsaved = newer.is_some();
                let kept = newer.map(|newer| self.keep.keep_unsaved(&newer, &plan));
                if !unsaved {
                    self.keep.let_go(&document_id, &plan);
                }
                if before != plan {
                    self.keep.let_go(&document_id, &before);
                }
                self.said = Some(match unsure {
                    Some(why) => format!("Saved, but it may not outlast a power cut: {why}"),
                    None => format!("Saved {}.", plan.display()),
                });
                if let Some(Err(error)) = kept {
                    self.said = Some(not_kept_safe(&error));
                }
                self.settings.opened(&files::named_by(&plan));
                self.rewatch(id);
                if !waiting.is_empty() {
                    let next = waiting.remove(0);
                    if let Some(bench) = self.bench(id) {
                        bench.waiting = waiting;
                    }
                    self.save(id, next);
                } else if unsaved && (closing || quitting) {
                    // Saved and closed is what was asked for: with what came since.
                    self.save(id, Save::Here);
                } else if closing || quitting {
                    self.close(id);
                }
            }
            Err(error) => {
                bench.leaving = Leaving::Stays;
                self.quitting = false;
                match &error {
                    // Something came to lie there since it was looked at.
                    SaveError::Changed(_) | SaveError::Exists(_) if moves => {
                        self.save_as(id, &plan);
                    }
                    SaveError::Changed(_) | SaveError::Exists(_) => {
                        let asking = Asking::overwrite(id, &plan, &error.to_string());
                        self.asking.push(asking);
                    }
                    _ => {
                        let words = error.to_string();
                        self.asking.push(Asking::tell("The plan could not be saved", &words));
                    }
                }
            }
        }
    }

    /// Watches the files where they lie now.
    pub(super) fn rewatch(&mut self, id: DeskId) {
        let Some(index) = self.benches.iter().position(|bench| bench.id == id) else { return };
        self.benches[index].watch.cancel();
        let watch = self.watch(id, &self.benches[index].desk);
        self.benches[index].watch = watch;
    }

    /// The picture is another file, or its bytes changed: the plan follows, as a step that can
    /// be taken back.
    fn relink(&mut self, id: DeskId, path: &Path, facts: Result<PictureFacts, String>) {
        let Some(bench) = self.bench(id) else { return };
        let Some(work) = bench.desk.kept().works.first() else { return };
        let (work, old) = (work.id, work.picture.clone());
        let plan = &bench.desk.plan;
        let read = facts.and_then(|facts| facts.picture(path, plan));
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

    pub(super) fn changed_outside(&mut self, id: DeskId) {
        let Some(bench) = self.bench(id) else { return };
        // Its own save is no news; a change by someone else in that moment meets the next one.
        if bench.saving {
            return;
        }
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

    pub(super) fn close(&mut self, id: DeskId) {
        if let Some(desk) = self.take_away(id) {
            self.keep.let_go(&desk.kept().id, &desk.plan);
        }
    }

    pub(super) fn take_away(&mut self, id: DeskId) -> Option<Desk> {
        let index = self.benches.iter().position(|bench| bench.id == id)?;
        let bench = self.benches.remove(index);
        bench.watch.cancel();
        self.textures.close(id);
        self.front = self.front.min(self.benches.len().saturating_sub(1));
        Some(bench.desk)
    }
}
