//! What the record tells the open plan: the number its print has, to be written on it.

use sightedge_core::command::Command;
use sightedge_core::spec::Recorded;
use sightedge_studio::{Edition, FormatId, Print, PrintId, State, Work};

use super::Editions;
use crate::window::context::{Requests, ScreenContext};
use crate::window::session::PlanSession;
use sightedge_service::record;
use sightedge_service::record::at_bench::inscribed;

impl Editions {
    /// The open plan, where it is of the work that is looked at: of its picture, or of a
    /// picture that no work has while this one has none.
    pub(super) fn plan_of_work<'a>(&self, cx: ScreenContext<'a>) -> Option<&'a PlanSession> {
        let work = self.work_looked_at()?;
        let same = match self.work_of(cx) {
            Some(of) => of == work.id,
            None => work.what.sha256.is_empty(),
        };
        // What is written on a print of another work stays that one's.
        let other = |session: &&PlanSession| {
            let written = session.document().inscribed.as_ref().map(|own| &own.recorded);
            written.is_some_and(|own| own.notation.is_some() && own.title != work.what.title)
        };
        let known = self.work_of(cx).is_some();
        cx.session().filter(|session| same && (known || !other(session)))
    }

    /// The open plan, where a print of this edition can be for it: an edition of one size is not
    /// for a plan of another.
    pub(super) fn plan_of_edition<'a>(
        &self,
        cx: ScreenContext<'a>,
        edition: &Edition,
    ) -> Option<&'a PlanSession> {
        let fits = |session: &&PlanSession| match edition.what.format {
            None => true,
            Some(format) => self.size_of_plan(session) == Some(format),
        };
        self.plan_of_work(cx).filter(fits)
    }

    /// The open plan, where the record has it as that of this print.
    fn plan_of_print<'a>(&self, cx: ScreenContext<'a>, id: PrintId) -> Option<&'a PlanSession> {
        let prints = self.cache.prints.editions.iter().flat_map(|one| &one.prints);
        let print = { prints }.find(|print| print.id == id)?;
        self.plan_of_work(cx).filter(|session| session.document().id == print.now.plan)
    }

    /// Which of the work's sizes a plan is of.
    pub(super) fn size_of_plan(&self, session: &PlanSession) -> Option<FormatId> {
        let (_, size) = record::of_plan(session.document(), Some(&session.plan));
        record::same_size(&self.cache.prints.formats, &size)
    }

    pub(super) fn work_looked_at(&self) -> Option<&Work> {
        self.cache.work(self.chosen.as_ref()?.work).map(|row| &row.work)
    }

    /// A print was issued to the open plan, or is its own from now on: where no print of it is at
    /// the bench yet, this one is, and its inscription is filled in from the record.
    pub(super) fn carry(
        &mut self,
        cx: ScreenContext<'_>,
        issued: PrintId,
        requests: &mut Requests,
    ) {
        let Some(session) = self.plan_of_print(cx, issued) else { return };
        let own = self.at_bench(session);
        if own.is_none_or(|own| own == issued) {
            self.take(cx, issued, requests);
        }
    }

    /// Which print of the work that is looked at the plan has at the bench.
    fn at_bench(&self, session: &PlanSession) -> Option<PrintId> {
        let own = &session.document().inscribed.as_ref()?.recorded;
        let same = |print: &&Print| match own.print {
            Some(id) => print.id.0 == i64::from(id),
            None => own.notation.is_some_and(|number| {
                (number.kind, number.number) == (print.kind, print.number)
            }),
        };
        let of_plan = |print: &&Print| print.live && print.now.plan == session.document().id;
        let mut prints = self.cache.prints.editions.iter().flat_map(|one| &one.prints);
        prints.find(|print| of_plan(print) && same(print)).map(|print| print.id)
    }

    /// Whether a print is one of the open plan that lies not at the bench.
    pub(super) fn may_lie_at_bench(&self, cx: ScreenContext<'_>, print: &Print) -> bool {
        let session = self.plan_of_print(cx, print.id);
        session.is_some_and(|session| self.at_bench(session) != Some(print.id))
            && print.now.state != State::Destroyed
    }

    /// Lays a print of the open plan on the bench.
    pub(super) fn take(
        &mut self,
        cx: ScreenContext<'_>,
        print: PrintId,
        requests: &mut Requests,
    ) {
        let (Some(session), Some(recorded)) =
            (self.plan_of_print(cx, print), self.recorded(print))
        else {
            return;
        };
        let document = session.document();
        let made = inscribed(document, recorded, &cx.settings.words.lettering());
        let first = document.inscribed.is_none().then_some(print);
        if document.inscribed.as_ref() != Some(&made) {
            requests.run(Command::SetInscribed(Some(Box::new(made))));
        }
        self.carried = first;
    }

    /// A new print replaces one: where that was at the bench, the new one is.
    pub(super) fn carry_replaced(
        &mut self,
        cx: ScreenContext<'_>,
        old: PrintId,
        new: PrintId,
        requests: &mut Requests,
    ) {
        let Some(session) = self.plan_of_print(cx, new) else { return };
        let named = session.document().inscribed.as_ref().and_then(|own| own.recorded.print);
        if named.is_some_and(|id| i64::from(id) == old.0) || self.at_bench(session) == Some(new)
        {
            self.take(cx, new, requests);
        }
    }

    /// What is said of the work was put right: the open plan follows, where it is of one of its
    /// prints and something is to be written on it.
    pub(super) fn carry_corrected(&mut self, cx: ScreenContext<'_>, requests: &mut Requests) {
        let Some(session) = self.plan_of_work(cx) else { return };
        if let Some(print) = self.at_bench(session) {
            self.take(cx, print, requests);
        }
    }

    /// A print's number is free again: the open plan no longer has it.
    pub(super) fn let_go(
        &mut self,
        cx: ScreenContext<'_>,
        freed: PrintId,
        requests: &mut Requests,
    ) {
        let (Some(session), Some(recorded)) =
            (self.plan_of_print(cx, freed), self.recorded(freed))
        else {
            return;
        };
        let Some(inscribed) = &session.document().inscribed else { return };
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
            requests.run(Command::SetInscribed(made));
        }
    }

    /// What the record knows of a print of the work that is looked at.
    fn recorded(&self, id: PrintId) -> Option<Recorded> {
        let work = self.work_looked_at()?;
        self.cache.prints.editions.iter().find_map(|one| {
            let print = one.prints.iter().find(|print| print.id == id)?;
            Some(record::recorded(work, one.edition(), print.kind, print.number, Some(id)))
        })
    }
}
