//! The papers' workbench, off the frame: one thread sets pages and paints them, one more writes
//! files. Results come back by a channel; each wakes the window once.

use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::mpsc::{Receiver, Sender, channel};

use egui::Context;
use sightedge_core::derived::derive;
use sightedge_core::file::reference;
use sightedge_core::material::Tables;
use sightedge_core::spec::{Document, Work};
use sightedge_papers::{
    Archive, Choice, Kind, Laid, Order, Paper, PapersError, Written, day_of, forget, lay_out,
    write_all, write_plan,
};
use sightedge_service::dates;
use sightedge_service::files::plans_in;

/// A paper of a plan to be set.
#[derive(Clone, Debug)]
pub(super) struct Wanted {
    pub(super) ticket: u64,
    pub(super) kind: Kind,
    pub(super) document: Document,
    pub(super) plan: PathBuf,
    pub(super) paper: Paper,
    pub(super) tables: Tables,
}

enum Ask {
    Lay(Box<Wanted>),
    Paint { ticket: u64, page: usize, ppi: f64 },
}

/// What comes back.
#[derive(Debug)]
pub(super) enum News {
    /// Pages are set: their sizes in millimetres, and what the person should know.
    Laid { ticket: u64, sizes: Vec<[f64; 2]>, told: Vec<String> },
    /// Pages could not be set.
    NotLaid { ticket: u64, why: String },
    /// One page in pixels.
    Painted { ticket: u64, page: usize, ppi: f64, image: egui::ColorImage },
    /// A folder was chosen, for what it was asked; `None` where none was.
    Folder(For, Option<PathBuf>),
    /// How far writing is.
    Step { done: usize, of: usize, failed: Option<String> },
    /// Writing has ended.
    Ended(Box<Ended>),
    /// A paper was given to the system's viewer, or could not be.
    Shown(Result<PathBuf, String>),
}

/// What a folder is asked for.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum For {
    /// To write to.
    Papers,
    /// To take plans from.
    Plans,
}

/// How writing ended.
#[derive(Clone, Debug, Default)]
pub(super) struct Ended {
    pub(super) folder: PathBuf,
    /// Plans whose papers are written.
    pub(super) plans: usize,
    pub(super) files: usize,
    /// What went wrong, each with its plan.
    pub(super) failed: Vec<String>,
    /// What the person should know.
    pub(super) told: Vec<String>,
    /// Whether it was stopped.
    pub(super) stopped: bool,
}

/// The workbench.
#[derive(Debug)]
pub(super) struct PrintoutWorker {
    context: Context,
    requests: Sender<Ask>,
    sender: Sender<News>,
    receiver: Receiver<News>,
    pending: usize,
    stop: Arc<AtomicBool>,
}

impl PrintoutWorker {
    /// A workbench that wakes `context`.
    pub(super) fn new(context: Context) -> Self {
        let (sender, receiver) = channel();
        let (requests, asked) = channel();
        let tell = Tell { sender: sender.clone(), context: context.clone() };
        std::thread::spawn(move || set_and_paint(&asked, &tell));
        Self { context, requests, sender, receiver, pending: 0, stop: Arc::default() }
    }

    /// What came in since it was last asked.
    pub(super) fn news(&mut self) -> Vec<News> {
        let news: Vec<News> = self.receiver.try_iter().collect();
        let done = news.iter().filter(|news| !matches!(news, News::Step { .. })).count();
        self.pending = self.pending.saturating_sub(done);
        news
    }

    /// How many jobs are not done.
    pub(super) const fn pending(&self) -> usize {
        self.pending
    }

    fn ask(&mut self, ask: Ask) {
        // The thread lives as long as this does.
        if self.requests.send(ask).is_ok() {
            self.pending += 1;
        }
    }

    /// Sets a paper; one that is asked for later replaces it.
    pub(super) fn lay(&mut self, wanted: Wanted) {
        self.ask(Ask::Lay(Box::new(wanted)));
    }

    /// Paints a page of the paper with that ticket.
    pub(super) fn paint(&mut self, ticket: u64, page: usize, ppi: f64) {
        self.ask(Ask::Paint { ticket, page, ppi });
    }

    fn start(&mut self, work: impl FnOnce(&Tell) -> News + Send + 'static) {
        self.pending += 1;
        let tell = Tell { sender: self.sender.clone(), context: self.context.clone() };
        std::thread::spawn(move || {
            let news = work(&tell);
            tell.tell(news);
        });
    }

    /// Asks for a folder, without holding up the window.
    pub(super) fn folder(&mut self, what: For, near: PathBuf) {
        self.start(move |_| {
            let title = match what {
                For::Papers => "Write the papers to",
                For::Plans => "Plans in",
            };
            News::Folder(what, crate::window::workers::dialog::folder(title, Some(&near)))
        });
    }

    /// Writes the papers of one plan, saved or not.
    pub(super) fn write(
        &mut self,
        document: Document,
        plan: PathBuf,
        out: PathBuf,
        choice: Choice,
    ) {
        self.start(move |_| {
            let mut ended = Ended { folder: out.clone(), ..Ended::default() };
            let choice = with_a_day(choice, &document, &plan);
            let written = write_plan(&document, &plan, &out, &choice);
            ended.take(written);
            News::Ended(Box::new(ended))
        });
    }

    /// Writes the papers of every plan in a folder; [`Self::stop`] stops it.
    pub(super) fn write_folder(&mut self, plans: PathBuf, out: PathBuf, choice: Choice) {
        self.stop = Arc::default();
        let stop = Arc::clone(&self.stop);
        self.start(move |tell| {
            let mut ended = Ended { folder: out.clone(), ..Ended::default() };
            let found = match plans_in(&plans) {
                Ok(found) if !found.is_empty() => found,
                Ok(_) => {
                    ended.failed.push(format!(
                        "{} holds no plan: choose a folder where plans lie beside their pictures",
                        plans.display()
                    ));
                    return News::Ended(Box::new(ended));
                }
                Err(error) => {
                    ended.failed.push(format!("{} cannot be read: {error}", plans.display()));
                    return News::Ended(Box::new(ended));
                }
            };
            let all = found.len();
            let outcomes = write_all(&found, &out, &choice, &stop, &mut |step| {
                let failed = step.last.ended.as_ref().err().map(ToString::to_string);
                tell.tell(News::Step { done: step.done, of: step.of, failed });
            });
            match outcomes {
                Ok(outcomes) => {
                    ended.stopped = outcomes.len() < all;
                    for outcome in outcomes {
                        ended.take(outcome.ended);
                    }
                }
                Err(error) => ended.failed.push(error.to_string()),
            }
            News::Ended(Box::new(ended))
        });
    }

    /// Begins no further plan.
    pub(super) fn stop(&self) {
        self.stop.store(true, Ordering::Relaxed);
    }

    /// Writes one paper where nothing is kept and gives it to the system's viewer, which can
    /// also print it.
    pub(super) fn show(&mut self, wanted: Wanted) {
        self.start(move |_| News::Shown(shown(&wanted)));
    }
}

impl Ended {
    fn take(&mut self, written: Result<Written, PapersError>) {
        match written {
            Ok(Written { files, told }) => {
                self.plans += 1;
                self.files += files.len();
                for words in told {
                    if !self.told.contains(&words) {
                        self.told.push(words);
                    }
                }
            }
            Err(error) => self.failed.push(error.to_string()),
        }
    }
}

struct Tell {
    sender: Sender<News>,
    context: Context,
}

impl Tell {
    fn tell(&self, news: News) {
        // The window may be gone by then.
        if self.sender.send(news).is_ok() {
            self.context.request_repaint();
        }
    }
}

/// The thread that sets pages and paints them, until nobody can ask any more. Of papers that
/// wait, only the last one is set.
fn set_and_paint(asked: &Receiver<Ask>, tell: &Tell) {
    let mut now: Option<(u64, Laid)> = None;
    while let Ok(first) = asked.recv() {
        let mut requests: Vec<Ask> = std::iter::once(first).chain(asked.try_iter()).collect();
        let last = requests.iter().rposition(|ask| matches!(ask, Ask::Lay(_))).unwrap_or(0);
        for (index, ask) in requests.drain(..).enumerate() {
            let news = match ask {
                Ask::Lay(wanted) if index < last => {
                    let why = "another paper was asked for".to_owned();
                    News::NotLaid { ticket: wanted.ticket, why }
                }
                Ask::Lay(wanted) => match laid(&wanted) {
                    Ok(laid) => {
                        let (sizes, told) = (laid.sizes(), laid.told().to_vec());
                        now = Some((wanted.ticket, laid));
                        News::Laid { ticket: wanted.ticket, sizes, told }
                    }
                    Err(why) => News::NotLaid { ticket: wanted.ticket, why },
                },
                Ask::Paint { ticket, page, ppi } => {
                    let current = now.as_ref().filter(|(of, _)| *of == ticket && index >= last);
                    let image = current.and_then(|(_, laid)| painted(laid, page, ppi));
                    News::Painted { ticket, page, ppi, image: image.unwrap_or_default() }
                }
            };
            tell.tell(news);
        }
        forget();
    }
}

fn painted(laid: &Laid, page: usize, ppi: f64) -> Option<egui::ColorImage> {
    let pixels = laid.pixels(page, ppi)?;
    let size = [usize::try_from(pixels.width).ok()?, usize::try_from(pixels.height).ok()?];
    Some(egui::ColorImage::from_rgba_premultiplied(size, &pixels.rgba))
}

fn laid(wanted: &Wanted) -> Result<Laid, String> {
    let Wanted { kind, document, plan, paper, tables, .. } = wanted;
    let variant = document.chosen().ok_or("the plan holds no mat")?;
    let derived = derive(document, variant, tables);
    let folder = plan.parent().unwrap_or(Path::new("."));
    let picture = |work: &Work| {
        let path = reference::resolve(folder, &work.picture.path);
        (!work.picture.path.is_empty()).then_some(path)
    };
    let order = Order {
        document,
        variant,
        derived: &derived,
        picture: &picture,
        paper: *paper,
        date: day_of(document, plan, dates::day_of).unwrap_or_else(dates::today),
        tables,
        steps: None,
        archive: Archive::default(),
    };
    Ok(lay_out(*kind, &order))
}

/// A plan that was never saved has the papers of today.
fn with_a_day(mut choice: Choice, document: &Document, plan: &Path) -> Choice {
    let of_plan = || day_of(document, plan, dates::day_of).unwrap_or_else(dates::today);
    choice.date = Some(choice.date.unwrap_or_else(of_plan));
    choice
}

fn shown(wanted: &Wanted) -> Result<PathBuf, String> {
    let folder = std::env::temp_dir().join("sightedge-papers");
    let choice = Choice {
        kinds: vec![wanted.kind],
        svg: false,
        dxf: false,
        csv: false,
        paper: Some(wanted.paper),
        tables: Some(wanted.tables.clone()),
        ..Choice::default()
    };
    let choice = with_a_day(choice, &wanted.document, &wanted.plan);
    let written = write_plan(&wanted.document, &wanted.plan, &folder, &choice);
    let files = written.map_err(|error| error.to_string())?.files;
    let file = files.into_iter().next().ok_or("nothing was written")?;
    open::that_detached(&file).map_err(|error| {
        format!("no viewer could be started ({error}): open {} yourself", file.display())
    })?;
    Ok(file)
}
