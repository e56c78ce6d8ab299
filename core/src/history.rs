//! Undo: whole documents, each with the name of the change that led away from it.

use crate::command::{Command, Refusal, apply};
use crate::spec::{Document, Entry};

/// A document with its past and its undone future. The log is outside: it only grows.
#[derive(Clone, Debug)]
pub struct History {
    now: Document,
    past: Vec<Step>,
    future: Vec<Step>,
}

#[derive(Clone, Debug)]
struct Step {
    name: &'static str,
    document: Document,
}

/// Plans are a few kilobytes; a long day at the bench stays within this.
const MOST_STEPS: usize = 500;

impl History {
    /// A document without a past.
    pub fn new(document: Document) -> Self {
        Self { now: document, past: Vec::new(), future: Vec::new() }
    }

    /// The document as it stands.
    pub fn now(&self) -> &Document {
        &self.now
    }

    /// Applies a command as one step. One that changes nothing is no step; says whether it
    /// was one.
    ///
    /// # Errors
    /// As [`apply`]; then nothing changed.
    pub fn run(&mut self, command: &Command) -> Result<bool, Refusal> {
        let mut changed = self.now.clone();
        apply(&mut changed, command)?;
        if changed == self.now {
            return Ok(false);
        }
        let before = std::mem::replace(&mut self.now, changed);
        self.past.push(Step { name: command.name(), document: before });
        if self.past.len() > MOST_STEPS {
            self.past.remove(0);
        }
        self.future.clear();
        Ok(true)
    }

    /// Puts another document in the place of this one, as one step.
    pub fn put(&mut self, document: Document, name: &'static str) {
        if document != self.now {
            let before = std::mem::replace(&mut self.now, document);
            self.past.push(Step { name, document: before });
            self.future.clear();
        }
    }

    /// Changes every document there is, past and undone ones as well: what is true of the
    /// plan's place on disk, whatever is undone.
    pub fn each(&mut self, mut change: impl FnMut(&mut Document)) {
        let steps = self.past.iter_mut().chain(&mut self.future);
        steps.map(|step| &mut step.document).chain([&mut self.now]).for_each(&mut change);
    }

    /// Adds to the log.
    pub fn note(&mut self, entry: Entry) {
        self.now.log.push(entry);
    }

    /// The log, for callers that remove entries; undo does not touch it.
    pub fn log_mut(&mut self) -> &mut Vec<Entry> {
        &mut self.now.log
    }

    /// Undoes the last step; returns its name.
    pub fn undo(&mut self) -> Option<&'static str> {
        let step = self.past.pop()?;
        let name = step.name;
        let undone = self.go_to(step.document);
        self.future.push(Step { name, document: undone });
        Some(name)
    }

    /// Redoes the last undone step; returns its name.
    pub fn redo(&mut self) -> Option<&'static str> {
        let step = self.future.pop()?;
        let name = step.name;
        let redone = self.go_to(step.document);
        self.past.push(Step { name, document: redone });
        Some(name)
    }

    /// What undo would take back.
    pub fn undo_name(&self) -> Option<&'static str> {
        self.past.last().map(|step| step.name)
    }

    /// What redo would do again.
    pub fn redo_name(&self) -> Option<&'static str> {
        self.future.last().map(|step| step.name)
    }

    fn go_to(&mut self, mut document: Document) -> Document {
        document.log.clone_from(&self.now.log);
        std::mem::replace(&mut self.now, document)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sample::reference;
    use crate::spec::{EntryKind, VariantId};

    #[test]
    fn there_and_back() {
        let first = reference();
        let mut history = History::new(first.clone());
        let on = Command::SetExhibition(VariantId(1), true);
        assert_eq!(history.run(&on), Ok(true));
        assert_eq!(history.run(&on), Ok(false), "a change of nothing is no step");
        assert_eq!(history.undo_name(), Some("exhibition rule"));
        let entry = Entry {
            when: "2026-03-01".to_owned(),
            kind: EntryKind::Choice,
            text: String::new(),
            ticked: None,
        };
        history.note(entry.clone());
        assert_eq!(history.undo(), Some("exhibition rule"));
        assert_eq!(history.now().log, [entry], "the log is outside undo");
        assert_eq!(history.now().variants, first.variants);
        assert_eq!(history.undo(), None);
        assert_eq!(history.redo(), Some("exhibition rule"));
        assert!(history.now().variants[0].mat.exhibition);
        assert_eq!(history.redo(), None);
    }
}
