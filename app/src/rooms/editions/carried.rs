//! What the record tells the open plan: the number its print has, to be written on it.

use sightedge_core::command::Command;
use sightedge_core::spec::Recorded;
use sightedge_studio::{Edition, FormatId, Print, PrintId, State, Work};

use super::Editions;
use crate::desk::Desk;
use crate::panels::Asks;
use crate::rooms::Hall;
use crate::studio;
use crate::studio::prints::inscribed;

impl Editions {
    /// The open plan, where it is of the work that is looked at: of its picture, or of a
    /// picture that no work has while this one has none.
    pub(super) fn plan_of_work<'a>(&self, hall: Hall<'a>) -> Option<&'a Desk> {
        let work = self.work_looked_at()?;
        let same = match self.work_of(hall) {
            Some(of) => of == work.id,
            None => work.what.sha256.is_empty(),
        };
        // What is written on a print of another work stays that one's.
        let other = |desk: &&Desk| {
            let written = desk.document().inscribed.as_ref().map(|own| &own.recorded);
            written.is_some_and(|own| own.notation.is_some() && own.title != work.what.title)
        };
        let known = self.work_of(hall).is_some();
        hall.desk().filter(|desk| same && (known || !other(desk)))
    }

    /// The open plan, where a print of this edition can be for it: an edition of one size is not
    /// for a plan of another.
    pub(super) fn plan_of_edition<'a>(
        &self,
        hall: Hall<'a>,
        edition: &Edition,
    ) -> Option<&'a Desk> {
        let fits = |desk: &&Desk| match edition.what.format {
            None => true,
            Some(format) => self.size_of_plan(desk) == Some(format),
        };
        self.plan_of_work(hall).filter(fits)
    }

    /// The open plan, where the record has it as that of this print.
    fn plan_of_print<'a>(&self, hall: Hall<'a>, id: PrintId) -> Option<&'a Desk> {
        let prints = self.prints.editions.iter().flat_map(|one| &one.prints);
        let print = { prints }.find(|print| print.id == id)?;
        self.plan_of_work(hall).filter(|desk| desk.document().id == print.now.plan)
    }

    /// Which of the work's sizes a plan is of.
    pub(super) fn size_of_plan(&self, desk: &Desk) -> Option<FormatId> {
        let (_, size) = studio::of_plan(desk.document(), Some(&desk.plan));
        studio::same_size(&self.prints.formats, &size)
    }

    pub(super) fn work_looked_at(&self) -> Option<&Work> {
        let mut works = self.works.as_ref()?.iter().map(|row| &row.work);
        works.find(|work| Some(work.id) == self.chosen)
    }

    /// A print was issued to the open plan, or is its own from now on: where no print of it is at
    /// the bench yet, this one is, and its inscription is filled in from the record.
    pub(super) fn carry(&mut self, hall: Hall<'_>, issued: PrintId, asks: &mut Asks) {
        let Some(desk) = self.plan_of_print(hall, issued) else { return };
        let own = self.at_bench(desk);
        if own.is_none_or(|own| own == issued) {
            self.take(hall, issued, asks);
        }
    }

    /// Which print of the work that is looked at the plan has at the bench.
    fn at_bench(&self, desk: &Desk) -> Option<PrintId> {
        let own = &desk.document().inscribed.as_ref()?.recorded;
        let same = |print: &&Print| match own.print {
            Some(id) => print.id.0 == i64::from(id),
            None => own.notation.is_some_and(|number| {
                (number.kind, number.number) == (print.kind, print.number)
            }),
        };
        let of_plan = |print: &&Print| print.live && print.now.plan == desk.document().id;
        let mut prints = self.prints.editions.iter().flat_map(|one| &one.prints);
        prints.find(|print| of_plan(print) && same(print)).map(|print| print.id)
    }

    /// Whether a print is one of the open plan that lies not at the bench.
    pub(super) fn may_lie_at_bench(&self, hall: Hall<'_>, print: &Print) -> bool {
        let desk = self.plan_of_print(hall, print.id);
        desk.is_some_and(|desk| self.at_bench(desk) != Some(print.id))
            && print.now.state != State::Destroyed
    }

    /// Lays a print of the open plan on the bench.
    pub(super) fn take(&mut self, hall: Hall<'_>, print: PrintId, asks: &mut Asks) {
        let (Some(desk), Some(recorded)) =
            (self.plan_of_print(hall, print), self.recorded(print))
        else {
            return;
        };
        let document = desk.document();
        let made = inscribed(document, recorded, &hall.settings.words.wish());
        let first = document.inscribed.is_none().then_some(print);
        if document.inscribed.as_ref() != Some(&made) {
            asks.run(Command::SetInscribed(Some(Box::new(made))));
        }
        self.carried = first;
    }

    /// A new print replaces one: where that was at the bench, the new one is.
    pub(super) fn carry_replaced(
        &mut self,
        hall: Hall<'_>,
        old: PrintId,
        new: PrintId,
        asks: &mut Asks,
    ) {
        let Some(desk) = self.plan_of_print(hall, new) else { return };
        let named = desk.document().inscribed.as_ref().and_then(|own| own.recorded.print);
        if named.is_some_and(|id| i64::from(id) == old.0) || self.at_bench(desk) == Some(new) {
            self.take(hall, new, asks);
        }
    }

    /// What is said of the work was put right: the open plan follows, where it is of one of its
    /// prints and something is to be written on it.
    pub(super) fn carry_corrected(&mut self, hall: Hall<'_>, asks: &mut Asks) {
        let Some(desk) = self.plan_of_work(hall) else { return };
        if let Some(print) = self.at_bench(desk) {
            self.take(hall, print, asks);
        }
    }

    /// A print's number is free again: the open plan no longer has it.
    pub(super) fn let_go(&mut self, hall: Hall<'_>, freed: PrintId, asks: &mut Asks) {
        let (Some(desk), Some(recorded)) =
            (self.plan_of_print(hall, freed), self.recorded(freed))
        else {
            return;
        };
        let Some(inscribed) = &desk.document().inscribed else { return };
        let same = match inscribed.recorded.print {
            Some(_) => inscribed.recorded.print == recorded.print,
            None => inscribed.recorded.notation == recorded.notation,
        };
        if same {
            // What came with the number goes with it; what was there before stays.
            let made = if self.carried.take() == Some(freed) {
                None
            } else {
                let mut made = inscribed.clone();
                (made.recorded.notation, made.recorded.print) = (None, None);
                Some(Box::new(made))
            };
            asks.run(Command::SetInscribed(made));
        }
    }

    /// What the record knows of a print of the work that is looked at.
    fn recorded(&self, id: PrintId) -> Option<Recorded> {
        let work = self.work_looked_at()?;
        self.prints.editions.iter().find_map(|one| {
            let print = one.prints.iter().find(|print| print.id == id)?;
            Some(studio::recorded(work, one.edition(), print.kind, print.number, Some(id)))
        })
    }
}
