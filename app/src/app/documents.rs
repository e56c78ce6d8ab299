//! Plans that come and go: opened, saved, closed, their pictures found again.

use std::path::Path;
use std::sync::Arc;
use std::time::Duration;

use egui::Context;
use sightedge_core::command::Command;
use sightedge_pictures::Watch;

use super::{App, Bench, Leaving};
use crate::asking::Asking;
use crate::canvas::Canvas;
use crate::desk::Desk;
use crate::files::{self, SaveError, Stamp};
use crate::jobs::{DeskId, Done, Opened, Purpose, Watched};
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
                    self.jobs.read(id, path);
                }
            }
            Done::Found(id, Some(path)) => self.jobs.read(id, path),
            Done::Read(id, path, facts) => self.relink(id, &path, *facts),
            Done::Changed(id, Watched::Plan) => self.changed_outside(id),
        }
    }

    pub(super) fn opened(&mut self, path: &Path, opened: Opened) {
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

    pub(super) fn save_as(&mut self, id: DeskId, path: &Path) {
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

    pub(super) fn saved(
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
            self.keep.let_go(&desk.kept().id);
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
