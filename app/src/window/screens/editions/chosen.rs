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
    /// Several numbers chosen at once, rising; none, where only one is.
    pub(super) several: Vec<Number>,
    /// Where a range of them begins.
    anchor: Option<Number>,
}

/// How a number is chosen.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum How {
    /// It alone.
    Alone,
    /// It as well, or no longer: Ctrl.
    Also,
    /// All from the one chosen before up to it: Shift.
    UpTo,
}

/// An edition of it, and the number that is chosen there.
#[derive(Clone, Copy, Debug)]
pub(super) struct ChosenEdition {
    pub(super) id: EditionId,
    pub(super) number: Option<Number>,
}

impl ChosenWork {
    pub(super) const fn new(work: WorkId) -> Self {
        Self {
            work,
            edition: None,
            size: None,
            replacing: None,
            several: Vec::new(),
            anchor: None,
        }
    }

    /// Looks at an edition, at none of its numbers.
    pub(super) fn look_at(&mut self, id: EditionId) {
        self.edition = Some(ChosenEdition { id, number: None });
        (self.several, self.anchor) = (Vec::new(), None);
    }

    /// Looks at a number.
    pub(super) fn look_at_number(&mut self, id: EditionId, number: Number) {
        self.edition = Some(ChosenEdition { id, number: Some(number) });
        (self.several, self.anchor) = (Vec::new(), Some(number));
    }

    /// Chooses a number alone, or with others.
    pub(super) fn choose_number(&mut self, id: EditionId, number: Number, how: How) {
        let before = self.edition.filter(|edition| edition.id == id);
        let before = before.and_then(|edition| edition.number);
        let anchor = self.anchor.or(before).filter(|(kind, _)| *kind == number.0);
        let all = match (how, anchor) {
            (How::Alone, _) | (How::UpTo, None) => vec![number],
            (How::UpTo, Some((kind, from))) => {
                let (first, last) = (from.min(number.1), from.max(number.1));
                (first..=last).map(|one| (kind, one)).collect()
            }
            (How::Also, _) => {
                let mut all = std::mem::take(&mut self.several);
                if all.is_empty() {
                    all.extend(before);
                }
                if all.contains(&number) {
                    all.retain(|one| *one != number);
                } else {
                    all.push(number);
                }
                all
            }
        };
        let keeps = how == How::UpTo && anchor.is_some();
        self.choose_numbers(id, all);
        if self.several.is_empty() {
            return;
        }
        // The keys go on from here; a range begins where it began.
        self.edition = Some(ChosenEdition { id, number: Some(number) });
        self.anchor = if keeps { anchor } else { Some(number) };
    }

    /// Chooses these numbers of an edition and no others.
    pub(super) fn choose_numbers(&mut self, id: EditionId, mut all: Vec<Number>) {
        all.sort_unstable();
        all.dedup();
        match all.as_slice() {
            [] => self.look_at(id),
            [one] => self.look_at_number(id, *one),
            [first, ..] => {
                self.edition = Some(ChosenEdition { id, number: Some(*first) });
                self.anchor = Some(*first);
                self.several = all;
            }
        }
    }

    /// Follows what is known of its editions: one that is there stays, else the first is
    /// looked at.
    pub(super) fn follow(&mut self, prints: &Prints) {
        let mut there = prints.editions.iter().map(|one| one.edition().id);
        let stays = self.edition.filter(|edition| there.any(|id| id == edition.id));
        let first = prints.editions.first().map(Numbered::edition);
        let first = first.map(|edition| ChosenEdition { id: edition.id, number: None });
        if stays.is_none() {
            (self.several, self.anchor) = (Vec::new(), None);
        }
        self.edition = stays.or(first);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Shift chooses a range from where it began, Ctrl one more or one less.
    #[test]
    fn several_numbers_are_chosen() {
        let mut chosen = ChosenWork::new(WorkId(1));
        let id = EditionId(1);
        let mut case = |number: u32, how: How, wanted: &[u32]| {
            chosen.choose_number(id, (Kind::Numbered, number), how);
            let one = chosen.edition.and_then(|edition| edition.number);
            let several: Vec<u32> = chosen.several.iter().map(|(_, number)| *number).collect();
            let all = if several.is_empty() {
                one.into_iter().map(|(_, number)| number).collect()
            } else {
                several
            };
            assert_eq!(all, wanted, "{number} {how:?}");
        };
        case(3, How::UpTo, &[3]);
        case(6, How::UpTo, &[3, 4, 5, 6]);
        case(2, How::UpTo, &[2, 3]);
        case(7, How::Alone, &[7]);
        case(9, How::Also, &[7, 9]);
        case(4, How::Also, &[4, 7, 9]);
        case(7, How::Also, &[4, 9]);
        case(9, How::Also, &[4]);
        case(4, How::Also, &[]);
        case(5, How::Also, &[5]);
        // A range is of one kind.
        chosen.choose_number(id, (Kind::Artist, 2), How::UpTo);
        assert_eq!(chosen.edition.unwrap().number, Some((Kind::Artist, 2)));
        assert!(chosen.several.is_empty());
    }
}
