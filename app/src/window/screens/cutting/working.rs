//! The search for fewer sheets, away from the frame: news by a channel, the best is kept when
//! it is called off.

use std::cell::{Cell, RefCell};
use std::path::PathBuf;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::mpsc::{Receiver, Sender, channel};
use std::time::{Duration, Instant};

use sightedge_core::spec::Document;
use sightedge_cutting::{Control, Effort, Plan, Progress, solve};

use sightedge_core::material::Tables;

use sightedge_service::cutting::kept::{BoardPlan, Cutting, Shop};
use sightedge_service::cutting::materials::materials;
use sightedge_service::cutting::narrower::{self, Offer, Sum};
use sightedge_service::cutting::{Taken, counted, jobs};
use sightedge_service::files;

/// News of the search.
#[derive(Debug)]
pub(super) enum News {
    /// All there is so far, and the share of boards and effort that is done.
    Better(Box<Cutting>, f32),
    /// Nothing better will come.
    Done(Box<Cutting>),
    /// Borders that might give a little.
    Offers(Vec<Offer>),
}

/// A plan as it is to be cut: title, document, how often.
pub(super) type Chosen = (String, Document, u32);

/// A search under way.
#[derive(Debug)]
pub(super) struct Search {
    pub(super) news: Receiver<News>,
    called_off: Arc<CalledOff>,
}

/// What is no longer looked for.
#[derive(Debug, Default)]
struct CalledOff {
    sheets: AtomicBool,
    borders: AtomicBool,
}

impl Search {
    /// Keeps the best sheets found so far. Whether narrower borders save one is still looked
    /// for.
    pub(super) fn keep_best(&self) {
        self.called_off.sheets.store(true, Ordering::Relaxed);
    }

    /// Looks no further at all.
    pub(super) fn call_off(&self) {
        self.keep_best();
        self.called_off.borders.store(true, Ordering::Relaxed);
    }
}

impl Drop for Search {
    fn drop(&mut self) {
        self.call_off();
    }
}

/// News at most so often.
const EVERY: Duration = Duration::from_millis(120);

/// Looks for the fewest sheets for `plans`.
pub(super) fn search(
    context: egui::Context,
    plans: Vec<Chosen>,
    shop: Shop,
    (metric, tables): (bool, Tables),
) -> Search {
    let (sender, news) = channel();
    let called_off = Arc::new(CalledOff::default());
    let over = Arc::clone(&called_off);
    std::thread::spawn(move || {
        run(&context, &plans, &shop, (metric, &tables), &over, &sender);
        context.request_repaint();
    });
    Search { news, called_off }
}

fn run(
    context: &egui::Context,
    plans: &[Chosen],
    shop: &Shop,
    (metric, tables): (bool, &Tables),
    called_off: &CalledOff,
    sender: &Sender<News>,
) {
    let named = counted(plans);
    let mut cutting = Cutting { metric, ..Cutting::default() };
    cutting.materials = materials(&named, cutting.unit(), shop.prices, tables);
    let jobs = jobs(&named, &shop.stock(), shop.manner());
    let count = jobs.len().max(1);
    let unit = cutting.unit();
    // What came too soon after the last news waits until the solver next asks whether to go on.
    let (waiting, told) = (RefCell::new(None), Cell::new(Instant::now()));
    let mut taken = Taken::default();
    for (index, job) in jobs.into_iter().enumerate() {
        let job = &taken.rest(job);
        let limit = Duration::from_secs(shop.seconds.clamp(1, 600));
        let started = Instant::now();
        let done = cutting.clone();
        let mut better = |progress: &Progress<'_>| {
            if !progress.plan.patterns.is_empty() {
                *waiting.borrow_mut() = Some((progress.plan.clone(), progress.spent));
            }
        };
        let mut over = || {
            if told.get().elapsed() >= EVERY
                && let Some((plan, spent)) = waiting.borrow_mut().take()
            {
                told.set(Instant::now());
                let mut so_far = done.clone();
                so_far.boards.push(BoardPlan::new(job, plan, shop, unit));
                let share = (whole(index) + real(spent)) / whole(count);
                tell(context, sender, News::Better(Box::new(so_far), share));
            }
            called_off.sheets.load(Ordering::Relaxed)
                || started.elapsed() >= limit.saturating_mul(2)
        };
        let control = Control { should_stop: &mut over, progress: &mut better };
        let plan: Plan = solve(&job.problem, Effort::seconds(shop.seconds), control);
        waiting.borrow_mut().take();
        taken.add(job, &plan);
        cutting.boards.push(BoardPlan::new(job, plan, shop, unit));
        let share = whole(index + 1) / whole(count);
        tell(context, sender, News::Better(Box::new(cutting.clone()), share));
    }
    let mut shown = Sum::default();
    for board in &cutting.boards {
        shown.add(&board.problem, &board.plan);
    }
    tell(context, sender, News::Done(Box::new(cutting)));
    if shop.give > 0 && !called_off.borders.load(Ordering::Relaxed) {
        let most = sightedge_core::length::Length::from_units(shop.give);
        let until = Instant::now() + Duration::from_secs(10);
        let mut over = || called_off.borders.load(Ordering::Relaxed) || Instant::now() >= until;
        let (stock, manner) = (shop.stock(), shop.manner());
        let offers = narrower::offers(plans, (&stock, manner, tables), most, shown, &mut over);
        tell(context, sender, News::Offers(offers));
    }
}

fn tell(context: &egui::Context, sender: &Sender<News>, news: News) {
    // The room may be gone by then.
    if sender.send(news).is_ok() {
        context.request_repaint();
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

/// A plan found in a folder.
#[derive(Debug)]
pub(super) struct Found {
    pub(super) path: PathBuf,
    pub(super) document: Document,
}

/// What a folder or a file holds: plans, and sentences about those that cannot be read.
pub(super) type Folder = (Vec<Found>, Vec<String>);

/// More plans than this are not taken from one folder.
const MOST_PLANS: usize = 500;

/// Opens every plan in a folder, or one plan.
pub(super) fn gather(context: egui::Context, path: PathBuf) -> Receiver<Folder> {
    let (sender, receiver) = channel();
    std::thread::spawn(move || {
        // The room may be gone by then.
        drop(sender.send(gathered(&path)));
        context.request_repaint();
    });
    receiver
}

fn gathered(path: &std::path::Path) -> Folder {
    let mut said = Vec::new();
    let mut paths = Vec::new();
    if path.is_dir() {
        match files::plans_in(path) {
            Ok(found) => paths = found,
            Err(error) => said.push(format!("{} cannot be read: {error}", path.display())),
        }
        if paths.is_empty() && said.is_empty() {
            said.push(format!(
                "{} holds no plans: save a plan beside its picture first",
                path.display()
            ));
        }
        if paths.len() > MOST_PLANS {
            said.push(format!(
                "only the first {MOST_PLANS} plans of {} are taken",
                path.display()
            ));
            paths.truncate(MOST_PLANS);
        }
    } else {
        paths.push(path.to_owned());
    }
    let mut found = Vec::new();
    for path in paths {
        match files::open(&path) {
            Ok(opened) => found.push(Found { path, document: opened.document }),
            Err(error) => said.push(error.to_string()),
        }
    }
    (found, said)
}
