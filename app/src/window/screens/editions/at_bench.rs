//! What the record knows of the plan in front, for the places of work where it matters which
//! print lies at the bench.

use sightedge_studio::{Note, WorkId};

use super::Editions;
use super::messages::{OfPlan, Outcome, Request, Undo};
use super::page::Page;
use super::printouts::Printouts;
use crate::window::context::{Requests, ScreenContext};
use crate::window::session::PlanSession;
use sightedge_service::record::at_bench::{Prints, named_by};
use sightedge_service::record::printouts::Whole;
use sightedge_service::record::{self, Home, PrintCorrection, is_record, today};

/// What the bench asked of the record.
#[derive(Debug, Default)]
pub(super) struct Bench {
    /// The plan whose prints were asked for.
    asked: Option<OfPlan>,
    /// Whether it is to be told what came of the change it asked for.
    waits: bool,
}

impl Bench {
    /// Has the prints of the plan asked for again.
    pub(super) fn forget_asked(&mut self) {
        self.asked = None;
    }
}

impl Editions {
    /// Listens to the record while another place of work is in front, and asks for the prints of
    /// the plan. No record is begun by that.
    pub(in crate::window::screens) fn attend(
        &mut self,
        context: &egui::Context,
        cx: ScreenContext<'_>,
        requests: &mut Requests,
    ) {
        let Some(session) = cx.session() else { return };
        let there = |home: Home| home.there().is_ok() && is_record(&home.folder);
        if !self.record.is_started() && !self.record.home().is_ok_and(there) {
            return;
        }
        self.start_record(context);
        self.take_replies(cx, requests);
        self.tell_bench(requests);
        let (plan, named) = named_by(session.document());
        let same =
            self.bench.asked.as_ref().is_some_and(|(id, print)| id == plan && *print == named);
        if !same && !self.place.is_lost() && !self.page.is_damage() {
            let of = (plan.to_owned(), named);
            self.bench.asked = Some(of.clone());
            self.ask(Request::OfPlan(of));
        }
    }

    /// The prints of the plan in front, as far as the record was heard.
    pub(in crate::window::screens) fn prints_of_plan(
        &self,
        session: &PlanSession,
    ) -> Option<&Prints> {
        let plan = &session.document().id;
        self.cache.of_plan.as_ref().filter(|(of, _)| of.0 == *plan).map(|(_, prints)| prints)
    }

    /// Notes in the record that a print is matted, as of today.
    pub(in crate::window::screens) fn note_matted(
        &mut self,
        cx: ScreenContext<'_>,
        (work, edition, print): &Whole,
    ) {
        // Its undo is not lost on the way to the numbers.
        self.look_at(cx, work.id);
        let (id, written) = (print.id, edition.what.notation(print.kind, print.number));
        self.bench.waits = true;
        self.change(move |record| {
            let there = record.print(id)?;
            let day = today();
            let matted =
                PrintCorrection { matted: Some(day.clone()), ..PrintCorrection::default() };
            let after = record::correct_print(record, &there, matted, &Note::at(&day))?;
            let (before, after) = (Box::new(there.now), Box::new(after.now));
            let what = format!("noting {written} as matted");
            Ok(Outcome {
                said: format!("{written} is noted as matted today. Editions can undo that."),
                undo: Some(Undo::Changed { print: id, before, after, what }),
                ..Outcome::default()
            })
        });
    }

    /// Says at the bench what came of what was asked there.
    fn tell_bench(&mut self, requests: &mut Requests) {
        if self.bench.waits
            && let Some(words) = self.status.failed.take().or_else(|| self.status.said.clone())
        {
            (self.bench.waits, requests.said) = (false, Some(words));
        }
    }

    /// Opens the page of what goes with a print.
    pub(in crate::window::screens) fn printouts_of(
        &mut self,
        cx: ScreenContext<'_>,
        whole: Whole,
    ) {
        if self.may_leave() {
            self.look_at(cx, whole.0.id);
            self.page.open(Page::Printouts(Box::new(Printouts::of_print(cx, whole))));
        }
    }

    /// Looks at the work of the plan in front, as one would who came here with it.
    fn look_at(&mut self, cx: ScreenContext<'_>, work: WorkId) {
        self.plan_seen = cx.session().map(|session| session.document().id.clone());
        if self.chosen.as_ref().is_none_or(|chosen| chosen.work != work) {
            self.choose(work);
        }
    }
}
