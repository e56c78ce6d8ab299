//! One open plan: its history, what is under the hand, and all that follows from it.

use std::path::{Path, PathBuf};
use std::sync::{Arc, LazyLock};

use sightedge_core::command::{Command, Refusal, apply};
use sightedge_core::derived::{Derived, derive};
use sightedge_core::history::History;
use sightedge_core::material::Tables;
use sightedge_core::spec::{Document, Variant, VariantId};
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
    /// All that follows, for each mat of what is shown.
    derived: Vec<(VariantId, Derived)>,
    /// The mat in front; the one that is to be made where none was brought there, or it is gone.
    front: Option<VariantId>,
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
            front: None,
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

    /// The mat in front.
    pub fn variant(&self) -> Option<&Variant> {
        let document = self.document();
        self.front.and_then(|id| document.variant(id)).or_else(|| document.chosen())
    }

    /// Brings a mat to the front.
    pub fn bring_forward(&mut self, mat: VariantId) {
        if self.variant().is_none_or(|front| front.id != mat) {
            self.cancel_draft();
            self.front = Some(mat);
            self.revision = self.revision.wrapping_add(1);
        }
    }

    /// Brings the next mat to the front, or the one before it.
    pub fn step_mat(&mut self, next: bool) {
        let variants = &self.document().variants;
        let front = self.variant().map(|front| front.id);
        let Some(at) = variants.iter().position(|one| Some(one.id) == front) else { return };
        let count = variants.len();
        let to = if next { at + 1 } else { at + count - 1 } % count;
        self.bring_forward(variants[to].id);
    }

    /// All that follows from the mat in front.
    pub fn derived(&self) -> &Derived {
        static NOTHING: LazyLock<Derived> = LazyLock::new(Derived::default);
        self.variant().and_then(|front| self.derived_of(front.id)).unwrap_or(&NOTHING)
    }

    /// All that follows from one of the mats.
    pub fn derived_of(&self, mat: VariantId) -> Option<&Derived> {
        self.derived.iter().find(|(id, _)| *id == mat).map(|(_, derived)| derived)
    }

    /// The mats of what is shown, in the plan's order, each with all that follows from it.
    pub fn mats(&self) -> impl Iterator<Item = (&Variant, &Derived)> {
        let variants = self.document().variants.iter();
        variants.filter_map(|variant| Some((variant, self.derived_of(variant.id)?)))
    }

    /// The mat that is to be made.
    pub fn chosen(&self) -> Option<&Variant> {
        self.document().chosen()
    }

    /// The plan as handles see it.
    pub fn handle_context(&self) -> Option<HandleContext<'_>> {
        let document = self.document();
        let variant = self.variant()?;
        Some(HandleContext { document, variant, layout: &self.derived().layout })
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
        let before = self.kept().clone();
        let outcome = self.history.run(command).map(drop);
        self.show_new(&before);
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
        let before = self.kept().clone();
        let name = self.history.undo();
        self.show_changed(&before);
        self.follow();
        name
    }

    /// Redoes the step that was undone last and returns its name.
    pub fn redo(&mut self) -> Option<&'static str> {
        self.draft = None;
        let before = self.kept().clone();
        let name = self.history.redo();
        self.show_changed(&before);
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

    /// A mat that was not there before comes to the front.
    fn show_new(&mut self, before: &Document) {
        let mut variants = self.kept().variants.iter();
        let new = variants.find(|variant| before.variant(variant.id).is_none());
        if let Some(id) = new.map(|variant| variant.id) {
            self.front = Some(id);
        }
    }

    /// What was undone or redone is seen: its mat comes to the front.
    fn show_changed(&mut self, before: &Document) {
        let changed = |variant: &&Variant| before.variant(variant.id) != Some(variant);
        let mut variants = self.kept().variants.iter();
        if let Some(id) = variants.find(changed).map(|variant| variant.id) {
            self.front = Some(id);
        }
    }

    fn follow(&mut self) {
        self.derived = derived_from(self.document(), &self.tables);
        self.revision = self.revision.wrapping_add(1);
    }
}

fn derived_from(document: &Document, tables: &Tables) -> Vec<(VariantId, Derived)> {
    let variants = document.variants.iter();
    variants.map(|variant| (variant.id, derive(document, variant, tables))).collect()
}
