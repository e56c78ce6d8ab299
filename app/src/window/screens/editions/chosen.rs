//! The work that is chosen: which of its editions, and which number, is looked at.

use sightedge_core::catalogue::Kind;
use sightedge_studio::{EditionId, FormatId, PrintId, WorkId};

use super::messages::{Numbered, Prints};

/// A kind of print and its number.
pub(super) type Number = (Kind, u32);

/// A work, and what of it is looked at.
#[derive(Debug)]
pub(super) struct ChosenWork {
    pub(super) work: WorkId,
    /// `None` until its editions are known, and where it has none.
    pub(super) edition: Option<ChosenEdition>,
    /// The size that the next print is of, where the edition counts several and one was picked.
    pub(super) size: Option<FormatId>,
    /// The destroyed print of which was asked whether it is replaced.
    pub(super) replacing: Option<PrintId>,
}

/// An edition of it, and the number that is chosen there.
#[derive(Clone, Copy, Debug)]
pub(super) struct ChosenEdition {
    pub(super) id: EditionId,
    pub(super) number: Option<Number>,
}

impl ChosenWork {
    pub(super) const fn new(work: WorkId) -> Self {
        Self { work, edition: None, size: None, replacing: None }
    }

    /// Looks at an edition, at none of its numbers.
    pub(super) fn look_at(&mut self, id: EditionId) {
        self.edition = Some(ChosenEdition { id, number: None });
    }

    /// Looks at a number.
    pub(super) fn look_at_number(&mut self, id: EditionId, number: Number) {
        self.edition = Some(ChosenEdition { id, number: Some(number) });
    }

    /// Follows what is known of its editions: one that is there stays, else the first is
    /// looked at.
    pub(super) fn follow(&mut self, prints: &Prints) {
        let mut there = prints.editions.iter().map(|one| one.edition().id);
        let stays = self.edition.filter(|edition| there.any(|id| id == edition.id));
        let first = prints.editions.first().map(Numbered::edition);
        let first = first.map(|edition| ChosenEdition { id: edition.id, number: None });
        self.edition = stays.or(first);
    }
}
