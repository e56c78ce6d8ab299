//! Editions: works and their numbers, what is issued, where it is, what is sold.

mod actions;
mod at_bench;
mod cache;
mod carried;
mod chosen;
mod damage;
mod edition;
mod form;
mod history;
mod home;
mod index;
mod lost;
mod messages;
mod numbers;
mod page;
mod print;
mod printouts;
mod replies;
mod several;
mod shows;
mod status;
mod thumbs;
mod undo;
mod walk;
mod work;
mod worker;

use egui::Ui;
use sightedge_studio::{Error, PrintId, Record, WorkId};

use self::at_bench::Bench;
use self::cache::Cache;
use self::chosen::ChosenWork;
use self::form::{Form, FormEvent, FormPage};
use self::home::RecordPlace;
use self::index::{Listed, Lists};
use self::messages::{Outcome, Prints, Purpose, Request};
use self::page::Page;
use self::printouts::PrintoutsEvent;
use self::status::Status;
use self::thumbs::Thumbs;
use self::undo::LastChange;
pub(super) use self::worker::RecordWorker;
use crate::window::context::{Requests, ScreenContext};
use crate::window::theme;

/// The screen and what it last heard of the record.
#[derive(Debug)]
pub(super) struct Editions {
    record: RecordWorker,
    place: RecordPlace,
    cache: Cache,
    lists: Lists,
    /// The work that is chosen in the list.
    chosen: Option<ChosenWork>,
    page: Page,
    typed: actions::Typed,
    last_change: Option<LastChange>,
    bench: Bench,
    /// The print whose number first made the open plan's inscription.
    carried: Option<PrintId>,
    status: Status,
    thumbs: Thumbs,
    /// The plan whose work was looked for last.
    plan_seen: Option<String>,
}

impl Editions {
    /// With a worker that is started once it is needed.
    pub(super) fn new(record: RecordWorker) -> Self {
        Self {
            record,
            place: RecordPlace::default(),
            cache: Cache::default(),
            lists: Lists::default(),
            chosen: None,
            page: Page::default(),
            typed: actions::Typed::default(),
            last_change: None,
            bench: Bench::default(),
            carried: None,
            status: Status::default(),
            thumbs: Thumbs::default(),
            plan_seen: None,
        }
    }

    /// What is asked of the record and not answered yet.
    pub(super) fn pending(&self) -> usize {
        self.record.pending() + self.record.open_dialogs() + self.thumbs.pending()
    }

    pub(super) fn show(&mut self, ui: &mut Ui, cx: ScreenContext<'_>, requests: &mut Requests) {
        self.start_record(ui.ctx());
        self.take_replies(cx, requests);
        self.follow_plan(cx);
        self.undo_requested();
        self.thumbs.begin(ui.ctx(), cx.decoder);
        let palette = theme::palette(ui);
        if self.page.is_damage() {
            self.damage(ui);
            return;
        }
        let frame = |fill| egui::Frame::new().fill(fill).inner_margin(16.0);
        egui::Panel::left("editions index")
            .frame(frame(palette.panel))
            .default_size(360.0)
            .size_range(260.0..=520.0)
            .show(ui, |ui| self.list(ui, cx));
        // Below, so that nothing moves away from the hand when something is said.
        let foot = egui::Frame::new().fill(palette.panel).inner_margin(egui::Margin {
            left: 16,
            right: 16,
            top: 6,
            bottom: 6,
        });
        egui::Panel::bottom("editions said")
            .frame(foot)
            .show_separator_line(false)
            .resizable(false)
            .min_size(40.0)
            .show(ui, |ui| self.status_line(ui));
        egui::CentralPanel::default().frame(frame(palette.panel)).show(ui, |ui| {
            match &mut self.page {
                Page::Home(_) => self.homes(ui),
                Page::Printouts(printouts) => {
                    let Some(home) = self.place.home() else { return };
                    let record = &self.record;
                    printouts.start_in(|| record.folder_for_printouts(&home.folder));
                    let failed = &mut self.status.failed;
                    let event = printouts.show(ui, cx, &home.folder, failed, requests);
                    self.printouts_event(event);
                }
                Page::Form(form) => {
                    let hint =
                        sightedge_service::record::price_hint(self.cache.currency.as_deref());
                    let event = form.show(ui, cx.settings.unit(), &hint);
                    let of = form.subjects();
                    if !of.is_empty() {
                        ui.add_space(8.0);
                        ui.label("History");
                        self.what_happened(ui, cx, of);
                    }
                    self.form_event(event);
                }
                // It has the whole window to itself.
                Page::Damage(_) => {}
                Page::Chosen => match self.lists.listed {
                    Listed::Works => self.work(ui, cx, requests),
                    Listed::Shows => self.show_list(ui, cx),
                },
            }
        });
        self.thumbs.end(ui.ctx());
    }

    /// Starts the record's worker once.
    fn start_record(&mut self, context: &egui::Context) {
        if self.record.is_started() || self.status.failed.is_some() {
            return;
        }
        let found = self.record.home();
        let lost = found.as_ref().map_or_else(|lost| Some(lost.clone()), |it| it.there().err());
        // Where it is not known, the usual folder is offered, and nothing is opened.
        let home = match found.or_else(|_| self.record.usual_home()) {
            Ok(home) => home,
            Err(lost) => {
                self.status.failed = Some(format!("{lost}."));
                return;
            }
        };
        self.record.start(context, home.folder.clone());
        self.place = match lost {
            None => {
                self.ask(Request::Look(None));
                RecordPlace::At(home)
            }
            Some(lost) => {
                self.page.choose_home();
                RecordPlace::Lost { offered: home, why: format!("{lost}.") }
            }
        };
    }

    fn ask(&mut self, request: Request) {
        self.record.ask(request);
    }

    /// Has the record changed.
    fn change(
        &mut self,
        change: impl FnOnce(&mut dyn Record) -> Result<Outcome, Error> + Send + 'static,
    ) {
        self.status.clear();
        let work = self.chosen.as_ref().map(|chosen| chosen.work);
        self.ask(Request::Change(Box::new(change), work));
    }

    /// Whether something is typed that is not in the record yet.
    pub(super) fn is_typed(&self) -> bool {
        self.page.form().is_some_and(Form::typed)
    }

    pub(super) fn give_up_typed(&mut self) {
        self.page.close_form();
    }

    /// Whether the page of what is typed may be left: not while something was typed that is
    /// nowhere else yet.
    fn may_leave(&mut self) -> bool {
        if self.is_typed() {
            self.status.failed = Some(
                "What was typed is not in the record yet: save or cancel it, then go on."
                    .to_owned(),
            );
            return false;
        }
        self.page.close_form();
        true
    }

    fn choose(&mut self, work: WorkId) {
        (self.cache.history, self.last_change) = (None, None);
        self.status.clear();
        self.page.close_printouts();
        self.chosen = Some(ChosenWork::new(work));
        self.cache.prints = Prints::default();
        if let Some(row) = self.cache.work(work) {
            self.thumbs.look_again(&row.work.what);
        }
        self.ask(Request::Look(Some(work)));
    }

    /// The work of the plan in front is looked at when one comes here with another plan.
    fn follow_plan(&mut self, cx: ScreenContext<'_>) {
        let (Some(session), Some(_)) = (cx.session(), &self.cache.works) else { return };
        let id = &session.document().id;
        if self.plan_seen.as_ref() == Some(id) {
            return;
        }
        self.plan_seen = Some(id.clone());
        if let Some(work) = self.work_of(cx)
            && !self.is_typed()
        {
            self.choose(work);
        }
    }

    /// The work of the open plan, by its picture's content.
    fn work_of(&self, cx: ScreenContext<'_>) -> Option<WorkId> {
        let picture = &cx.session()?.document().works.first()?.picture;
        self.cache.work_of_picture(&picture.sha256)
    }

    fn open_form(&mut self, page: FormPage) {
        self.page.open(Page::Form(Box::new(page.into())));
    }

    fn form_event(&mut self, event: Option<FormEvent>) {
        match event {
            None => {}
            Some(FormEvent::Leave) => {
                self.page.leave();
                self.status.failed = None;
            }
            Some(FormEvent::ChoosePicture(near)) => self.record.choose(Purpose::Picture, near),
            // What was typed stays until it is in the record.
            Some(FormEvent::Save(change)) => self.change(change),
        }
    }

    fn printouts_event(&mut self, event: Option<PrintoutsEvent>) {
        match event {
            None => {}
            Some(PrintoutsEvent::Leave) => self.page.leave(),
            Some(PrintoutsEvent::ChooseFolder(near)) => {
                self.record.choose(Purpose::Printouts, near);
            }
            Some(PrintoutsEvent::Write(printouts)) => self.ask(Request::Printouts(printouts)),
        }
    }
}
