//! What the record knows of the plan in front, for the places of work where it matters which
//! print lies at the bench.

use super::talk::Ask;
use super::{Editions, Papers};
use crate::desk::Desk;
use crate::panels::Asks;
use crate::rooms::Hall;
use crate::studio::papers::Whole;
use crate::studio::prints::{Prints, named_by};
use crate::studio::{Home, is_record};

impl Editions {
    /// Listens to the record while another place of work is in front, and asks for the prints of
    /// the plan. No record is begun by that.
    pub(in crate::rooms) fn attend(
        &mut self,
        context: &egui::Context,
        hall: Hall<'_>,
        asks: &mut Asks,
    ) {
        let Some(desk) = hall.desk() else { return };
        let there = |home: Home| home.there().is_ok() && is_record(&home.folder);
        if self.keeper.is_none() && !Home::of(hall.keep).is_ok_and(there) {
            return;
        }
        self.begin(context, hall);
        self.hear(hall, asks);
        let (plan, named) = named_by(desk.document());
        let same =
            self.asked_of.as_ref().is_some_and(|(id, print)| id == plan && *print == named);
        if !same && self.lost.is_none() && self.damaged.is_none() {
            let of = (plan.to_owned(), named);
            self.asked_of = Some(of.clone());
            self.ask(Ask::OfPlan(of));
        }
    }

    /// The prints of the plan in front, as far as the record was heard.
    pub(in crate::rooms) fn prints_of_plan(&self, desk: &Desk) -> Option<&Prints> {
        let plan = &desk.document().id;
        self.of_plan.as_ref().filter(|(of, _)| of.0 == *plan).map(|(_, prints)| prints)
    }

    /// Opens the page of what goes with a print.
    pub(in crate::rooms) fn papers_of(&mut self, hall: Hall<'_>, whole: Whole) {
        // The page is not left for the plan's work.
        self.plan_seen = hall.desk().map(|desk| desk.document().id.clone());
        if self.may_leave() {
            self.choose(whole.0.id);
            self.papers = Some(Papers::of_print(hall, whole));
        }
    }
}
