//! What the record's worker replied, and the dialogs that were closed.

use sightedge_studio::PrintId;

use super::Editions;
use super::chosen::ChosenWork;
use super::messages::{Index, Outcome, Prints, Purpose, Reply, Request, Undo};
use super::page::Page;
use super::undo::LastChange;
use crate::window::context::{Requests, ScreenContext};
use sightedge_service::wording;

impl Editions {
    pub(super) fn take_replies(&mut self, cx: ScreenContext<'_>, requests: &mut Requests) {
        for reply in self.record.replies() {
            self.status.busy = matches!(reply, Reply::Busy);
            match reply {
                Reply::Busy => {}
                Reply::Index(Index { works, sums, shows, currency }) => {
                    if let Some(last) = works.last() {
                        self.cache.maker.clone_from(&last.work.what.maker);
                    }
                    (self.cache.works, self.cache.sums, self.cache.shows) =
                        (Some(works), sums, shows);
                    self.cache.currency = currency;
                    self.cache.held = None;
                    self.lists.forget_found();
                }
                Reply::Prints(prints) => self.take_prints(prints),
                // Another window or program wrote: what is shown follows, what is chosen and
                // typed stays.
                Reply::Refreshed => {
                    self.bench.forget_asked();
                    if let Some((of, _)) = &self.cache.history {
                        let of = of.clone();
                        self.ask(Request::History(of));
                    }
                    self.ask_for_show_again();
                }
                Reply::OfPlan(of, prints) => self.cache.of_plan = Some((of, prints)),
                Reply::History(of, entries) => self.cache.history = Some((of, entries)),
                Reply::Show(name, list) => self.cache.show = Some((name, list)),
                Reply::Held(text, works) => {
                    self.cache.held = Some((text, works));
                    self.lists.forget_found();
                }
                Reply::Changed(outcome) => self.changed(outcome, cx, requests),
                Reply::Said(said) => self.status.said = Some(said),
                Reply::Moved(home, works) => self.moved(home, works),
                Reply::Written(ended) => {
                    if let Some(printouts) = self.page.printouts_mut() {
                        printouts.written(ended);
                    }
                }
                Reply::Failed(words) => match &mut self.page {
                    Page::Form(form) => form.refused(&words),
                    _ => self.status.failed = Some(wording::whole(&words)),
                },
                Reply::Damaged(damage) => self.page.damaged(damage),
            }
        }
        for chosen in self.record.chosen() {
            let Some(path) = chosen.path else { continue };
            match chosen.what {
                Purpose::Record => self.page.home_chosen(path),
                Purpose::Printouts => {
                    if let Some(printouts) = self.page.printouts_mut() {
                        printouts.folder(path);
                    }
                }
                Purpose::Picture => self.page.picture_chosen(&path),
            }
        }
    }

    /// The record was changed.
    fn changed(&mut self, outcome: Outcome, cx: ScreenContext<'_>, requests: &mut Requests) {
        let Outcome { said, undo, noted, freed, replaced, edition, look, show } = outcome;
        self.status.said = Some(said);
        self.status.failed = None;
        self.bench.forget_asked();
        if let Some(Undo::Issued(id, _)) = undo {
            self.look_at_print(id);
            self.carry(cx, id, requests);
        }
        self.last_change = undo.map(LastChange::new);
        if let Some(id) = freed {
            self.let_go(cx, id, requests);
        }
        if let (Some(chosen), Some(edition)) = (&mut self.chosen, edition) {
            chosen.look_at(edition);
        }
        if let Some((old, new)) = replaced {
            self.carry_replaced(cx, old, new, requests);
        }
        if let Some(work) = look {
            if self.chosen.as_ref().is_none_or(|chosen| chosen.work != work) {
                self.chosen = Some(ChosenWork::new(work));
            }
            self.page.close_form();
        }
        match noted {
            Some(id) => self.carry(cx, id, requests),
            None if look.is_some() => self.carry_corrected(cx, requests),
            None => {}
        }
        self.cache.history = None;
        if let Some(show) = show {
            self.cache.show = Some((show, Vec::new()));
        }
        self.ask_for_show_again();
    }

    fn ask_for_show_again(&mut self) {
        if let Some((name, _)) = &self.cache.show {
            let name = name.clone();
            self.ask(Request::Show(name));
        }
    }

    /// The editions of a work with their prints.
    fn take_prints(&mut self, prints: Prints) {
        let Some(work) = prints.work else { return };
        let same = self.chosen.as_ref().is_some_and(|chosen| chosen.work == work);
        if !same && !prints.new {
            // Answered late: another work is looked at by now.
            return;
        }
        if !same {
            self.chosen = Some(ChosenWork::new(work));
        }
        if let Some(chosen) = &mut self.chosen {
            chosen.follow(&prints);
        }
        self.cache.prints = prints;
    }

    /// Looks at the number that a print of this edition has.
    fn look_at_print(&mut self, id: PrintId) {
        let Some(one) = self.cache.edition_of(id) else { return };
        let print = one.prints.iter().find(|print| print.id == id);
        if let (Some(print), Some(chosen)) = (print, &mut self.chosen)
            && chosen.edition.is_some_and(|edition| edition.id == print.edition)
        {
            chosen.look_at_number(print.edition, (print.kind, print.number));
        }
    }
}
