//! One open plan: its history, what is under the hand, and all that follows from it.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use sightedge_core::command::{Command, Refusal, apply};
use sightedge_core::derived::{Derived, derive};
use sightedge_core::history::History;
use sightedge_core::material::Tables;
use sightedge_core::spec::{Document, Variant};
use sightedge_core::steps::{self, Step};

use crate::window::handle::HandleContext;
use sightedge_service::files::{self, Stamp};
use sightedge_service::plan_names::plan_name;

/// Names an open plan for as long as the window lives.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug, Hash)]
pub struct SessionId(pub u64);

/// One open plan.
#[derive(Debug)]
pub struct PlanSession {
    history: History,
    /// The document while a hand moves something, and the command that made it so.
    draft: Option<(Document, Command)>,
    derived: Derived,
    /// Sizes and materials: those of the program and the person's own.
    tables: Arc<Tables>,
    /// Where the plan is, or will be, saved.
    pub plan: PathBuf,
    /// What is known of the saved plan; `None` while there is none.
    pub stamp: Option<Stamp>,
    /// The document as it was last saved or opened.
    saved: Option<Document>,
    /// Counts changes, so that others can tell whether something changed.
    revision: u64,
}

impl PlanSession {
    /// A plan that was opened, or a new one without a `stamp`.
    pub fn new(document: Document, plan: PathBuf, stamp: Option<Stamp>) -> Self {
        let tables = Arc::new(Tables::shipped().clone());
        let derived = derived_from(&document, &tables);
        let saved = stamp.is_some().then(|| document.clone());
        Self {
            history: History::new(document),
            draft: None,
            derived,
            tables,
            plan,
            stamp,
            saved,
            revision: 0,
        }
    }

    /// Sizes and materials from now on.
    pub fn use_tables(&mut self, tables: Arc<Tables>) {
        self.tables = tables;
        self.follow();
    }

    /// Sizes and materials.
    pub fn tables(&self) -> &Tables {
        &self.tables
    }

    /// The document as it is shown: with what is under the hand.
    pub fn document(&self) -> &Document {
        self.draft.as_ref().map_or_else(|| self.history.now(), |(document, _)| document)
    }

    /// The document as it is kept.
    pub fn kept(&self) -> &Document {
        self.history.now()
    }

    /// The variant in front.
    pub fn variant(&self) -> Option<&Variant> {
        self.document().chosen()
    }

    /// All that follows from what is shown.
    pub fn derived(&self) -> &Derived {
        &self.derived
    }

    /// The plan as handles see it.
    pub fn handle_context(&self) -> Option<HandleContext<'_>> {
        let document = self.document();
        let variant = document.chosen()?;
        Some(HandleContext { document, variant, layout: &self.derived.layout })
    }

    /// Grows with every change of what is shown.
    pub fn revision(&self) -> u64 {
        self.revision
    }

    /// Whether a hand moves something.
    pub fn is_drafting(&self) -> bool {
        self.draft.is_some()
    }

    /// Whether something is not saved.
    pub fn is_unsaved(&self) -> bool {
        self.saved.as_ref() != Some(self.history.now())
    }

    /// What the plan is called: see [`plan_name`].
    pub fn title(&self) -> String {
        plan_name(self.kept())
    }

    /// Where the picture is, by the plan.
    pub fn picture(&self) -> Option<PathBuf> {
        let work = self.kept().works.first()?;
        Some(files::picture_of(&self.plan, &work.picture.path))
    }

    /// Applies a command as one undo step.
    ///
    /// # Errors
    /// Where it names something that is gone.
    pub fn run(&mut self, command: &Command) -> Result<(), Refusal> {
        self.draft = None;
        let outcome = self.history.run(command).map(drop);
        self.follow();
        outcome
    }

    /// Shows what a command would do, without keeping it.
    ///
    /// # Errors
    /// Where it names something that is gone.
    pub fn draft(&mut self, command: Command) -> Result<(), Refusal> {
        let mut document = self.history.now().clone();
        apply(&mut document, &command)?;
        self.draft = Some((document, command));
        self.follow();
        Ok(())
    }

    /// Keeps the draft as one undo step.
    pub fn commit_draft(&mut self) {
        if let Some((_, command)) = self.draft.take() {
            // It was applied to this very document when it was drafted.
            let kept = self.history.run(&command);
            debug_assert!(kept.is_ok(), "{command:?}");
            self.follow();
        }
    }

    /// Drops the draft: the document is as it was before the drag.
    pub fn cancel_draft(&mut self) {
        if self.draft.take().is_some() {
            self.follow();
        }
    }

    /// Undoes the last step and returns its name; a draft is dropped first.
    pub fn undo(&mut self) -> Option<&'static str> {
        self.draft = None;
        let name = self.history.undo();
        self.follow();
        name
    }

    /// Redoes the step that was undone last and returns its name.
    pub fn redo(&mut self) -> Option<&'static str> {
        self.draft = None;
        let name = self.history.redo();
        self.follow();
        name
    }

    /// Ticks a step at the bench as it is shown, or unticks it; `when` is the day. Ticks are saved
    /// with the plan and are no step of undo.
    pub fn tick(&mut self, step: &Step, when: &str) {
        let Some(variant) = self.kept().chosen().map(|variant| variant.id) else { return };
        let log = self.history.log_mut();
        if step.done {
            steps::untick(log, variant, step);
        } else {
            steps::tick(log, variant, step, when);
        }
        self.follow();
    }

    /// The names of what undo and redo would do.
    pub fn steps(&self) -> (Option<&'static str>, Option<&'static str>) {
        (self.history.undo_name(), self.history.redo_name())
    }

    /// Another document in the place of this one, as one undo step.
    pub fn replace(&mut self, document: Document, name: &'static str) {
        self.draft = None;
        self.history.put(document, name);
        self.follow();
    }

    /// The plan is at another path from now on, in every undo step too: undo never points it at a
    /// picture that is not there.
    pub fn moved_to(&mut self, plan: &Path) {
        let from = std::mem::replace(&mut self.plan, plan.to_owned());
        self.history.each(|document| {
            // A picture that cannot be referred to from there was reported when it was saved.
            drop(files::move_references(document, &from, plan));
        });
        self.stamp = None;
        self.saved = None;
        self.follow();
    }

    /// Remembers that `document` is what was saved.
    pub fn was_saved(&mut self, document: Document, stamp: Stamp) {
        self.saved = Some(document);
        self.stamp = Some(stamp);
    }

    /// The document as it was last saved.
    pub fn saved(&self) -> Option<&Document> {
        self.saved.as_ref()
    }

    fn follow(&mut self) {
        self.derived = derived_from(self.document(), &self.tables);
        self.revision = self.revision.wrapping_add(1);
    }
}

fn derived_from(document: &Document, tables: &Tables) -> Derived {
    document.chosen().map_or_else(Derived::default, |variant| derive(document, variant, tables))
}
