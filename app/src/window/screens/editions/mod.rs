//! Editions: works and their numbers, what is issued, where it is, what is sold.

mod actions;
mod at_bench;
mod carried;
mod damage;
mod form;
mod history;
mod home;
mod index;
mod lost;
mod messages;
mod numbers;
mod papers;
mod print;
mod saying;
mod shown;
mod thumbs;
mod undo;
mod walk;
mod worker;

use egui::Ui;
use sightedge_core::catalogue::Kind;
use sightedge_studio::{
    EditionId, Entry, Error, FormatId, PrintId, Record, Subject, Sums, WorkId, WorkRow,
};

use self::form::{Form, FormEvent};
use self::home::Choosing;
use self::messages::{AtShow, Damage, OfPlan, Outcome, Prints, Purpose, Reply, Request, Undo};
use self::papers::Papers;
use self::thumbs::Thumbs;
pub(super) use self::worker::RecordWorker;
use crate::window::context::{Requests, ScreenContext};
use crate::window::theme;
use sightedge_service::record::Home;

/// What the list at the left shows.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
enum Listed {
    #[default]
    Works,
    Shows,
}

/// A number that was chosen.
type Place = (EditionId, Kind, u32);

/// The room and what it last heard of the record.
#[derive(Debug, Default)]
pub(super) struct Editions {
    worker: RecordWorker,
    home: Option<Home>,
    /// Why the record is not where it was left.
    lost: Option<String>,
    choosing: Option<Choosing>,
    papers: Option<Papers>,
    listed: Listed,
    search: String,
    works: Option<Vec<WorkRow>>,
    /// The works the search finds, for the text it was made with.
    found: Option<(String, Vec<usize>)>,
    /// Those that someone or some show called so has.
    held: Option<(String, Vec<WorkId>)>,
    sums: Vec<Sums>,
    shows: Vec<(String, u32)>,
    show: Option<(String, AtShow)>,
    chosen: Option<WorkId>,
    prints: Prints,
    edition: Option<EditionId>,
    /// The size that the next print is of, where the edition counts several and one was picked.
    size: Option<FormatId>,
    place: Option<Place>,
    /// What is looked at, and what happened to it.
    history: Option<(Vec<Subject>, Vec<Entry>)>,
    typed: actions::Typed,
    form: Option<Form>,
    maker: String,
    /// What was done last and can be taken back.
    undo: Option<Undo>,
    undoing: bool,
    /// The destroyed print of which was asked whether it is replaced.
    replacing: Option<PrintId>,
    /// The prints of the plan in front, and what was asked for them.
    of_plan: Option<(OfPlan, sightedge_service::record::at_bench::Prints)>,
    asked_of: Option<OfPlan>,
    /// Whether the bench waits to be told what came of what it asked.
    of_bench: bool,
    /// The print that is to lie at the bench from now on.
    to_bench: Option<PrintId>,
    /// The print whose number first made the open plan's inscription.
    carried: Option<PrintId>,
    said: Option<String>,
    failed: Option<String>,
    damaged: Option<Damage>,
    thumbs: Thumbs,
    /// The row of the list that has the keys.
    walking: Option<egui::Id>,
    scrolled: walk::Scrolled,
    /// Since when an answer is waited for, in seconds.
    waits_since: Option<f64>,
    /// The plan whose work was looked for last.
    plan_seen: Option<String>,
}

impl Editions {
    /// With a worker that is started once it is needed.
    pub(super) fn new(worker: RecordWorker) -> Self {
        Self { worker, ..Self::default() }
    }

    /// What is asked of the record and not answered yet.
    pub(super) fn pending(&self) -> usize {
        self.worker.pending() + self.worker.open_dialogs() + self.thumbs.pending()
    }

    pub(super) fn show(&mut self, ui: &mut Ui, cx: ScreenContext<'_>, requests: &mut Requests) {
        self.begin(ui.ctx());
        self.hear(cx, requests);
        self.follow_plan(cx);
        self.undo_asked();
        self.thumbs.begin(ui.ctx(), cx.decoder);
        let palette = theme::palette(ui);
        if self.damaged.is_some() {
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
            .show(ui, |ui| self.messages(ui));
        egui::CentralPanel::default().frame(frame(palette.panel)).show(ui, |ui| {
            if self.choosing.is_some() {
                self.homes(ui);
            } else if self.papers.is_some() {
                self.papers(ui, cx, requests);
            } else if let Some(form) = &mut self.form {
                let event = form.show(ui, cx.settings.unit());
                let of = form.subjects();
                if !of.is_empty() {
                    ui.add_space(8.0);
                    ui.label("What was said so far");
                    self.what_happened(ui, cx, of);
                }
                self.form_event(event);
            } else if self.listed == Listed::Shows {
                self.show_list(ui, cx);
            } else {
                self.work(ui, cx);
            }
        });
        self.thumbs.end(ui.ctx());
        if let Some(id) = self.to_bench.take() {
            self.take(cx, id, requests);
        }
    }

    /// Starts the record's thread once.
    fn begin(&mut self, context: &egui::Context) {
        if self.worker.is_started() || self.failed.is_some() {
            return;
        }
        let found = self.worker.home();
        let lost = found.as_ref().map_or_else(|lost| Some(lost.clone()), |it| it.there().err());
        // Where it is not known, the usual folder is offered, and nothing is opened.
        let home = match found.or_else(|_| self.worker.usual_home()) {
            Ok(home) => home,
            Err(lost) => {
                self.failed = Some(format!("{lost}."));
                return;
            }
        };
        self.worker.start(context, home.folder.clone());
        match lost {
            None => self.worker.ask(Request::Look(None)),
            Some(lost) => {
                (self.lost, self.choosing) =
                    (Some(format!("{lost}.")), Some(Choosing::default()));
            }
        }
        self.home = Some(home);
    }

    /// What the record answered.
    fn hear(&mut self, cx: ScreenContext<'_>, requests: &mut Requests) {
        for reply in self.worker.replies() {
            match reply {
                Reply::Index(works, sums, shows) => {
                    if let Some(last) = works.last() {
                        self.maker.clone_from(&last.work.what.maker);
                    }
                    (self.works, self.sums, self.shows) = (Some(works), sums, shows);
                    (self.found, self.held) = (None, None);
                }
                Reply::Prints(prints) => self.has(prints),
                // Another window or program wrote: what is shown follows, what is chosen and
                // typed stays.
                Reply::Refreshed => {
                    self.asked_of = None;
                    if let Some((of, _)) = &self.history {
                        let of = of.clone();
                        self.ask(Request::History(of));
                    }
                    if let Some((name, _)) = &self.show {
                        let name = name.clone();
                        self.ask(Request::Show(name));
                    }
                }
                Reply::OfPlan(of, prints) => self.of_plan = Some((of, prints)),
                Reply::History(of, entries) => self.history = Some((of, entries)),
                Reply::Show(name, list) => self.show = Some((name, list)),
                Reply::Held(text, works) => {
                    (self.held, self.found) = (Some((text, works)), None);
                }
                Reply::Changed(Outcome {
                    said,
                    undo,
                    noted,
                    freed,
                    replaced,
                    edition,
                    look,
                }) => {
                    self.said = Some(said);
                    self.failed = None;
                    self.asked_of = None;
                    if let Some(Undo::Issued(id, _)) = undo {
                        self.place_of(id);
                        self.carry(cx, id, requests);
                    }
                    self.undo = undo;
                    if let Some(id) = freed {
                        self.let_go(cx, id, requests);
                    }
                    if edition.is_some() {
                        (self.edition, self.place) = (edition, None);
                    }
                    if let Some((old, new)) = replaced {
                        self.carry_replaced(cx, old, new, requests);
                    }
                    if look.is_some() {
                        (self.chosen, self.form) = (look, None);
                    }
                    match noted {
                        Some(id) => self.carry(cx, id, requests),
                        None if look.is_some() => self.carry_corrected(cx, requests),
                        None => {}
                    }
                    self.history = None;
                    if let Some((name, _)) = &self.show {
                        let name = name.clone();
                        self.ask(Request::Show(name));
                    }
                }
                Reply::Said(said) => self.said = Some(said),
                Reply::Moved(home, works) => self.moved(home, works),
                Reply::Written(ended) => {
                    if let Some(papers) = &mut self.papers {
                        papers.written(ended);
                    }
                }
                Reply::Failed(words) => match &mut self.form {
                    Some(form) => form.refused(&words),
                    None => self.failed = Some(sightedge_service::wording::whole(&words)),
                },
                Reply::Damaged(damage) => self.damaged = Some(damage),
            }
        }
        self.hear_dialogs();
    }

    /// Files and folders that were chosen.
    fn hear_dialogs(&mut self) {
        for chosen in self.worker.chosen() {
            let Some(path) = chosen.path else { continue };
            match chosen.what {
                Purpose::Record => {
                    if let Some(choosing) = &mut self.choosing {
                        choosing.folder = Some(path);
                    }
                }
                Purpose::Papers => {
                    if let Some(papers) = &mut self.papers {
                        papers.folder(path);
                    }
                }
                Purpose::Picture => {
                    if let Some(form) = &mut self.form {
                        form.picture(&path);
                    }
                }
            }
        }
    }

    fn has(&mut self, prints: Prints) {
        if prints.new {
            self.chosen = prints.work;
        } else if prints.work != self.chosen {
            // Answered late: another work is looked at by now.
            return;
        }
        let there = |id: &EditionId| prints.editions.iter().any(|one| one.edition().id == *id);
        self.edition = self
            .edition
            .filter(there)
            .or_else(|| prints.editions.first().map(|one| one.edition().id));
        self.place = self.place.filter(|place| there(&place.0));
        self.prints = prints;
    }

    fn place_of(&mut self, id: PrintId) {
        let all = self.prints.editions.iter().flat_map(|one| &one.prints);
        if let Some(print) = all.into_iter().find(|print| print.id == id) {
            self.place = Some((print.edition, print.kind, print.number));
        }
    }

    fn ask(&mut self, request: Request) {
        self.worker.ask(request);
    }

    fn make(
        &mut self,
        change: impl FnOnce(&mut dyn Record) -> Result<Outcome, Error> + Send + 'static,
    ) {
        (self.said, self.failed) = (None, None);
        let chosen = self.chosen;
        self.ask(Request::Change(Box::new(change), chosen));
    }

    /// Whether something is typed that is not in the record yet.
    pub(super) fn is_typed(&self) -> bool {
        self.form.as_ref().is_some_and(Form::typed)
    }

    pub(super) fn give_up_typed(&mut self) {
        self.form = None;
    }

    /// Whether the page of what is typed may be left: not while something was typed that is
    /// nowhere else yet.
    fn may_leave(&mut self) -> bool {
        if self.is_typed() {
            self.failed = Some(
                "What was typed is not in the record yet: save or cancel it, then go on."
                    .to_owned(),
            );
            return false;
        }
        self.form = None;
        true
    }

    fn choose(&mut self, work: WorkId) {
        (self.place, self.history, self.undo) = (None, None, None);
        self.replacing = None;
        (self.said, self.failed) = (None, None);
        (self.chosen, self.edition, self.papers) = (Some(work), None, None);
        self.size = None;
        self.prints = Prints::default();
        let row = self.works.iter().flatten().find(|row| row.work.id == work);
        if let Some(row) = row {
            self.thumbs.look_again(&row.work.what);
        }
        self.ask(Request::Look(Some(work)));
    }

    /// The work of the plan in front is looked at when one comes here with another plan.
    fn follow_plan(&mut self, cx: ScreenContext<'_>) {
        let (Some(session), Some(_)) = (cx.session(), &self.works) else { return };
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
        let works = self.works.as_ref()?.iter();
        let mut same = works.filter(|row| row.work.what.sha256 == picture.sha256);
        same.find(|row| !row.work.what.sha256.is_empty()).map(|row| row.work.id)
    }

    fn form_event(&mut self, event: Option<FormEvent>) {
        match event {
            None => {}
            Some(FormEvent::Leave) => (self.form, self.failed) = (None, None),
            Some(FormEvent::ChoosePicture(near)) => {
                self.worker.choose(Purpose::Picture, near);
            }
            // What was typed stays until it is in the record.
            Some(FormEvent::Save(change)) => self.make(change),
        }
    }
}
