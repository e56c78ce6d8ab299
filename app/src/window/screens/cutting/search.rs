//! The search for fewer sheets, off the frame: what is found comes at once, and the best is kept
//! when it is stopped.

use std::cell::{Cell, RefCell};
use std::time::{Duration, Instant};

use sightedge_core::length::Length;
use sightedge_core::material::Tables;
use sightedge_core::spec::Document;
use sightedge_cutting::{Control, Effort, Plan, Progress, solve};
use sightedge_pictures::CancelToken;

use crate::window::workers::{Job, ReplySender, Worker};
use sightedge_service::cutting::materials::materials;
use sightedge_service::cutting::model::{BoardPlan, Cutting, Shop};
use sightedge_service::cutting::narrower::{self, Offer, Sum};
use sightedge_service::cutting::{Taken, counted, jobs_after};

/// What the search found.
#[derive(Debug)]
pub(super) enum Found {
    /// All there is so far, and the share of boards and effort that is done.
    Better(Box<Cutting>, f32),
    /// Nothing better will come.
    Best(Box<Cutting>),
    /// Borders that might be a little narrower.
    Offers(Vec<Offer>),
    /// Nothing: why.
    Failed(String),
}

/// A plan as it is to be cut: title, document, how often.
pub(super) type Chosen = (String, Document, u32);

/// What is searched for.
#[derive(Debug)]
pub(super) struct Request {
    pub(super) plans: Vec<Chosen>,
    pub(super) shop: Shop,
    pub(super) metric: bool,
    pub(super) tables: Tables,
    /// What is cut already: it stays, and the rest is planned.
    pub(super) done: Vec<BoardPlan>,
}

/// A search under way. Dropping it cancels it.
#[derive(Debug)]
pub(super) struct Search {
    worker: Worker<Request, Found>,
    /// Of the sheets alone.
    sheets: CancelToken,
    /// Of all of it.
    all: CancelToken,
}

impl Search {
    /// Looks for the fewest sheets.
    pub(super) fn start(context: egui::Context, request: Request) -> Self {
        let sheets = CancelToken::default();
        let mut worker = Worker::new(context, Sheets { cancelled: sheets.clone() });
        let all = worker.request(request);
        Self { worker, sheets, all }
    }

    /// What was found since the last call.
    pub(super) fn found(&mut self) -> Vec<Found> {
        self.worker.replies()
    }

    /// Whether nothing more will be found.
    pub(super) const fn is_over(&self) -> bool {
        self.worker.pending() == 0
    }

    /// Keeps the best sheets found so far. Whether narrower borders save one is still looked
    /// for.
    pub(super) fn keep_best(&self) {
        self.sheets.cancel();
    }

    /// Looks no further at all.
    pub(super) fn cancel(&self) {
        self.all.cancel();
    }
}

/// What is found is shown at most so often.
const EVERY: Duration = Duration::from_millis(120);

struct Sheets {
    cancelled: CancelToken,
}

impl Job for Sheets {
    type Request = Request;
    type Reply = Found;

    fn run(
        &mut self,
        request: Request,
        token: &CancelToken,
        replies: &ReplySender<Found>,
    ) -> Option<Found> {
        let Request { plans, shop, metric, tables, done: cut } = request;
        let named = counted(&plans);
        let partly = !cut.is_empty();
        let shop = shop.without(&cut);
        let jobs = jobs_after(&cut, &named, &shop.stock(), shop.manner());
        let mut cutting = Cutting { metric, boards: cut, ..Cutting::default() };
        cutting.materials = materials(&named, cutting.unit(), shop.prices, &tables);
        let count = jobs.len().max(1);
        let unit = cutting.unit();
        // What was found too soon after the last waits until the solver next asks whether to
        // go on.
        let (waiting, last_sent) = (RefCell::new(None), Cell::new(Instant::now()));
        let mut used = Taken::default();
        for (index, job) in jobs.into_iter().enumerate() {
            let job = &used.rest(job);
            let limit = Duration::from_secs(shop.seconds.clamp(1, 600));
            let started = Instant::now();
            let done = cutting.clone();
            let mut better = |progress: &Progress<'_>| {
                if !progress.plan.patterns.is_empty() {
                    *waiting.borrow_mut() = Some((progress.plan.clone(), progress.spent));
                }
            };
            let mut over = || {
                if last_sent.get().elapsed() >= EVERY
                    && let Some((plan, spent)) = waiting.borrow_mut().take()
                {
                    last_sent.set(Instant::now());
                    let mut so_far = done.clone();
                    so_far.boards.push(BoardPlan::new(job, plan, &shop, unit));
                    let share = (whole(index) + real(spent)) / whole(count);
                    replies.send(Found::Better(Box::new(so_far), share));
                }
                self.cancelled.is_cancelled()
                    || token.is_cancelled()
                    || started.elapsed() >= limit.saturating_mul(2)
            };
            let control = Control { should_stop: &mut over, progress: &mut better };
            let plan: Plan = solve(&job.problem, Effort::seconds(shop.seconds), control);
            waiting.borrow_mut().take();
            used.add(job, &plan);
            cutting.boards.push(BoardPlan::new(job, plan, &shop, unit));
            let share = whole(index + 1) / whole(count);
            replies.send(Found::Better(Box::new(cutting.clone()), share));
        }
        let mut shown = Sum::default();
        for board in &cutting.boards {
            shown.add(&board.problem, &board.plan);
        }
        replies.send(Found::Best(Box::new(cutting)));
        // Once a board is cut the borders of its mats are what they are.
        if shop.give == 0 || partly || token.is_cancelled() {
            return None;
        }
        let most = Length::from_units(shop.give);
        let until = Instant::now() + Duration::from_secs(10);
        let mut over = || token.is_cancelled() || Instant::now() >= until;
        let (stock, manner) = (shop.stock(), shop.manner());
        let offers =
            narrower::offers(&plans, (&stock, manner, &tables), most, shown, &mut over);
        Some(Found::Offers(offers))
    }

    fn panicked(&mut self, words: String) -> Option<Found> {
        Some(Found::Failed(words))
    }
}

#[expect(clippy::as_conversions, clippy::cast_precision_loss, reason = "a few boards")]
fn whole(count: usize) -> f32 {
    count as f32
}

#[expect(clippy::as_conversions, clippy::cast_possible_truncation, reason = "a share")]
fn real(share: f64) -> f32 {
    share as f32
}
