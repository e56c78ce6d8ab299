//! Plans that come and go: opened, saved, closed, their pictures found again.

use std::path::Path;
use std::sync::Arc;
use std::time::Duration;

use egui::Context;
use sightedge_core::command::Command;
use sightedge_pictures::CancelToken;

use super::leaving::not_kept_safe;
use super::{App, Leaving, OpenPlan, Save};
use crate::window::canvas::Canvas;
use crate::window::question::Question;
use crate::window::screens::mat::Mats;
use crate::window::session::{PlanSession, SessionId};
use crate::window::workers::{Done, Jobs, Onto, Opened, Purpose, Saved, Watched};
use sightedge_service::files::{self, SaveError};
use sightedge_service::picture_facts::PictureFacts;

impl App {
    pub(super) fn take(&mut self, context: &Context, done: Done) {
        match done {
            Done::Opened(path, result) => match *result {
                Ok(opened) => self.opened(&path, opened),
                Err(words) => {
                    self.asking.push(Question::tell("This could not be opened", &words));
                }
            },
            Done::Chosen(purpose, Some(path), _) => match purpose {
                Purpose::Open => self.open_file(path),
                Purpose::SaveAs(id) => self.save_as(id, &path),
                Purpose::Relink(id) => self.jobs.read(id, path),
                Purpose::Profile => self.use_profile(context, &path),
            },
            // No dialog answers that fast: the system has none.
            Done::Chosen(purpose, None, took) if took < Duration::from_millis(150) => {
                let near = self.session().map(|session| session.plan.clone());
                self.asking.push(Question::path(purpose, near));
            }
            Done::Chosen(..) | Done::Found(_, None) => {}
            Done::Saved(id, saved) => self.saved(id, *saved),
            Done::Picture(id, ask, brought) => {
                self.textures.take(context, id, ask, brought);
            }
            Done::Changed(id, Watched::Picture) => {
                self.textures.reload(id);
                let path = self.open_plan(id).and_then(|open| open.session.picture());
                if let Some(path) = path.filter(|path| path.exists()) {
                    self.jobs.read(id, path);
                }
            }
            Done::Found(id, Some(path)) => self.jobs.read(id, path),
            Done::Read(id, path, facts) => self.relink(id, &path, *facts),
            Done::Changed(id, Watched::Plan) => self.changed_outside(id),
            Done::Monitors(monitors) => self.monitors = monitors,
            Done::Said(said) => self.say(said),
        }
    }

    pub(super) fn opened(&mut self, path: &Path, opened: Opened) {
        let same = |open: &OpenPlan| files::are_one(&open.session.plan, &opened.plan);
        let same = self.plans.iter().position(same);
        self.settings.opened(&files::named_by(path));
        match opened.said {
            Some(said) => self.say(said),
            None => self.messages.forget(self.room),
        }
        if let Some(index) = same {
            self.front = index;
            return;
        }
        let session = PlanSession::new(opened.document, opened.plan, opened.stamp);
        self.add(session);
    }

    pub(super) fn add(&mut self, mut session: PlanSession) {
        session.use_tables(Arc::clone(&self.tables));
        self.next += 1;
        let id = SessionId(self.next);
        let token = watch(&mut self.jobs, id, &session);
        self.plans.push(OpenPlan {
            id,
            canvas: Canvas::default(),
            mats: Mats::default(),
            token,
            kept_safe: session.revision(),
            changed_at: 0.0,
            seen_revision: session.revision(),
            leaving: Leaving::Stays,
            saving: false,
            waiting: Vec::new(),
            looked_for: false,
            restored: false,
            session,
        });
        self.front = self.plans.len() - 1;
    }

    pub(super) fn open_plan(&mut self, id: SessionId) -> Option<&mut OpenPlan> {
        self.plans.iter_mut().find(|open| open.id == id)
    }

    /// Asks where a plan is to be saved under another name.
    pub(super) fn ask_where(&mut self, id: SessionId) {
        if let Some(open) = self.open_plan(id) {
            let near = open.session.plan.clone();
            self.jobs.ask(Purpose::SaveAs(id), Some(near));
        }
    }

    /// Saves under another name, whoever chose it; what lies there is written over only when
    /// the person says so.
    pub(super) fn save_as(&mut self, id: SessionId, path: &Path) {
        let path = if files::is_plan(path) { path.to_owned() } else { files::plan_of(path) };
        let path = std::path::absolute(&path).unwrap_or(path);
        let Some(open) = self.open_plan(id) else { return };
        open.session.commit_draft();
        let (title, own) = (open.session.title(), files::are_one(&open.session.plan, &path));
        if own && open.session.stamp.is_some() {
            self.save(id, Save::Here);
            return;
        }
        let open =
            |open: &&OpenPlan| open.id != id && files::are_one(&open.session.plan, &path);
        if let Some(other) = self.plans.iter().find(open) {
            let words = format!(
                "{} is the plan for {}, which is open in a tab of its own. Close that tab first, or \
                 choose another name.",
                path.display(),
                other.session.title()
            );
            self.asking.push(Question::tell("That plan is open", &words));
            return;
        }
        match files::there(&path) {
            Some(there) => self.asking.push(Question::replace(id, &title, &path, there)),
            None => self.save(id, Save::As(path, Onto::Nothing)),
        }
    }

    /// Saves; a save that is under way is waited for.
    pub(super) fn save(&mut self, id: SessionId, save: Save) {
        let Some(open) = self.open_plan(id) else { return };
        if open.saving {
            // Each in its turn: a new name that was chosen is not lost to a further save.
            if !matches!((open.waiting.last(), &save), (Some(Save::Here), Save::Here)) {
                open.waiting.push(save);
            }
            return;
        }
        let session = &open.session;
        let (mut document, own) = (session.kept().clone(), session.plan.clone());
        let (plan, onto, moves) = match save {
            Save::Here => {
                let onto = session.stamp.clone().map_or(Onto::Nothing, Onto::Seen);
                (own, onto, false)
            }
            Save::Over => (own, Onto::Anything, false),
            Save::As(path, onto) => {
                if let Err(error) = files::move_references(&mut document, &own, &path) {
                    self.say(error.to_string());
                    return;
                }
                (path, onto, true)
            }
        };
        open.saving = true;
        self.jobs.save(id, document, plan, onto, moves);
    }

    fn saved(&mut self, id: SessionId, saved: Saved) {
        let quitting = self.quitting;
        let Saved { document, plan, moves, result } = saved;
        let Some(open) = self.open_plan(id) else { return };
        open.saving = false;
        let mut waiting = std::mem::take(&mut open.waiting);
        let (result, unsure) = match result {
            Err(SaveError::Unsure { failed, stamp }) => (Ok(stamp), Some(failed.to_string())),
            other => (other, None),
        };
        match result {
            Ok(stamp) => {
                let before = open.session.plan.clone();
                if moves {
                    open.session.moved_to(&plan);
                }
                let document_id = document.id.clone();
                open.session.was_saved(document, stamp);
                let closing = open.leaving == Leaving::OnceSaved;
                // What was changed while it was being saved is kept on.
                let newer = open.session.is_unsaved().then(|| open.session.kept().clone());
                let unsaved = newer.is_some();
                let kept = newer.map(|newer| self.storage.keep_unsaved(&newer, &plan));
                if !unsaved {
                    self.storage.let_go(&document_id, &plan);
                }
                if before != plan {
                    self.storage.let_go(&document_id, &before);
                }
                self.say(match unsure {
                    Some(why) => format!("Saved, but it may not outlast a power cut: {why}"),
                    None => format!("Saved {}.", plan.display()),
                });
                if let Some(Err(error)) = kept {
                    self.say(not_kept_safe(&error));
                }
                self.settings.opened(&files::named_by(&plan));
                self.rewatch(id);
                if !waiting.is_empty() {
                    let next = waiting.remove(0);
                    if let Some(open) = self.open_plan(id) {
                        open.waiting = waiting;
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
                open.leaving = Leaving::Stays;
                self.quitting = false;
                match &error {
                    // Something came to lie there since it was looked at.
                    SaveError::Changed(_) | SaveError::Exists(_) if moves => {
                        self.save_as(id, &plan);
                    }
                    SaveError::Changed(_) | SaveError::Exists(_) => {
                        let asking = Question::overwrite(id, &plan, &error.to_string());
                        self.asking.push(asking);
                    }
                    _ => {
                        let words = error.to_string();
                        self.asking.push(Question::tell("The plan could not be saved", &words));
                    }
                }
            }
        }
    }

    /// Watches the files where they lie now.
    pub(super) fn rewatch(&mut self, id: SessionId) {
        let Some(index) = self.plans.iter().position(|open| open.id == id) else { return };
        self.plans[index].token.cancel();
        let token = watch(&mut self.jobs, id, &self.plans[index].session);
        self.plans[index].token = token;
    }

    /// The picture is another file, or its bytes changed: the plan follows, as a step that can
    /// be undone.
    fn relink(&mut self, id: SessionId, path: &Path, facts: Result<PictureFacts, String>) {
        let Some(open) = self.open_plan(id) else { return };
        let Some(work) = open.session.kept().works.first() else { return };
        let (work, old) = (work.id, work.picture.clone());
        let plan = &open.session.plan;
        let read = facts.and_then(|facts| facts.picture(path, plan));
        let moved = read.as_ref().is_ok_and(|new| new.sha256 == old.sha256);
        let words = match read.map(|picture| open.session.run(&Command::Relink(work, picture)))
        {
            Ok(Ok(())) if moved => format!("The picture now comes from {}.", path.display()),
            Ok(Ok(())) => "The picture has changed and was read again.".to_owned(),
            Ok(Err(refusal)) => refusal.to_string(),
            Err(words) => words,
        };
        self.say(words);
        self.textures.reload(id);
        self.rewatch(id);
    }

    pub(super) fn changed_outside(&mut self, id: SessionId) {
        let Some(open) = self.open_plan(id) else { return };
        // Its own save is no news; a change by someone else in that moment meets the next one.
        if open.saving {
            return;
        }
        let Ok(found) = files::open(&open.session.plan) else { return };
        if open.session.stamp.as_ref() == Some(&found.stamp) {
            return;
        }
        let title = open.session.title();
        if self.asking.iter().any(|asking| asking.is_about(id)) {
            return;
        }
        self.asking.push(Question::changed(id, &title));
    }

    pub(super) fn close(&mut self, id: SessionId) {
        if let Some(session) = self.take_away(id) {
            self.storage.let_go(&session.kept().id, &session.plan);
        }
    }

    pub(super) fn take_away(&mut self, id: SessionId) -> Option<PlanSession> {
        let index = self.plans.iter().position(|open| open.id == id)?;
        let open = self.plans.remove(index);
        open.token.cancel();
        self.textures.close(id);
        // The plan in front stays there, whichever is closed.
        if index < self.front {
            self.front -= 1;
        }
        self.front = self.front.min(self.plans.len().saturating_sub(1));
        Some(open.session)
    }
}

/// Watches the files of a plan where they lie now.
fn watch(jobs: &mut Jobs, id: SessionId, session: &PlanSession) -> CancelToken {
    let mut files = vec![(Watched::Plan, session.plan.clone())];
    files.extend(session.picture().map(|picture| (Watched::Picture, picture)));
    jobs.watch(id, files)
}
