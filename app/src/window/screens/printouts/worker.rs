//! The papers' work, off the frame: one worker sets pages and paints them, one writes files, one
//! hands a paper to the system's viewer.

use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::sync::atomic::AtomicBool;

use egui::Context;
use sightedge_core::derived::derive;
use sightedge_core::file::reference;
use sightedge_core::material::Tables;
use sightedge_core::spec::{Document, Work};
use sightedge_papers::{
    Archive, Choice, Kind, Laid, Order, Paper, PapersError, Written, day_of, forget, lay_out,
    plans_in, write_all, write_plan,
};
use sightedge_pictures::CancelToken;
use sightedge_service::dates;

use crate::window::workers::{Dialog, Dialogs, Job, ReplySender, Target, Worker};

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

/// What a folder is asked for.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Purpose {
    /// To write to.
    Papers,
    /// To take plans from.
    Plans,
}

/// All workers of this place.
#[derive(Debug)]
pub(super) struct Workers {
    pub(super) pages: Worker<PageRequest, PageReply>,
    pub(super) files: Worker<FileRequest, FileReply>,
    pub(super) viewer: Worker<Wanted, Result<PathBuf, String>>,
    pub(super) dialogs: Dialogs<Purpose>,
}

impl Workers {
    /// Each reply wakes `context`.
    pub(super) fn new(context: &Context) -> Self {
        Self {
            pages: Worker::new(context.clone(), Pages::default()),
            files: Worker::new(context.clone(), Files),
            viewer: Worker::new(context.clone(), Viewer),
            dialogs: Dialogs::new(context.clone()),
        }
    }

    /// How many requests are not done.
    pub(super) const fn pending(&self) -> usize {
        self.pages.pending()
            + self.files.pending()
            + self.viewer.pending()
            + self.dialogs.pending()
    }

    /// Sets a paper, instead of those that wait.
    pub(super) fn lay(&mut self, wanted: Wanted) {
        self.pages.cancel_all();
        self.pages.request(PageRequest::Lay(Box::new(wanted)));
    }

    /// Asks for a folder, without holding up the window.
    pub(super) fn folder(&mut self, what: Purpose, near: PathBuf) {
        let title = match what {
            Purpose::Papers => "Write the papers to",
            Purpose::Plans => "Plans in",
        };
        self.dialogs.show(what, Dialog { title, target: Target::Folder, near: Some(near) });
    }
}

/// What is asked of the pages. The ticket of a paper names it.
#[derive(Debug)]
pub(super) enum PageRequest {
    /// Sets a paper.
    Lay(Box<Wanted>),
    /// Paints a page of it.
    Paint { ticket: u64, page: usize, ppi: f64 },
}

/// What comes back.
#[derive(Debug)]
pub(super) enum PageReply {
    /// Pages are set: their sizes in millimetres, and what the person should know.
    Laid { ticket: u64, sizes: Vec<[f64; 2]>, told: Vec<String> },
    /// They could not be set, or painted.
    Failed { ticket: u64, why: String },
    /// One page in pixels.
    Painted { ticket: u64, page: usize, ppi: f64, image: egui::ColorImage },
}

/// The paper that was set last, to be painted.
#[derive(Default)]
struct Pages {
    now: Option<(u64, Laid)>,
    /// That of the request under way.
    ticket: u64,
}

impl Job for Pages {
    type Request = PageRequest;
    type Reply = PageReply;

    fn run(
        &mut self,
        request: PageRequest,
        token: &CancelToken,
        _: &ReplySender<PageReply>,
    ) -> Option<PageReply> {
        if token.is_cancelled() {
            return None;
        }
        let reply = match request {
            PageRequest::Lay(wanted) => {
                let ticket = wanted.ticket;
                self.ticket = ticket;
                match laid(&wanted) {
                    Ok(laid) => {
                        let (sizes, told) = (laid.sizes(), laid.told().to_vec());
                        self.now = Some((ticket, laid));
                        PageReply::Laid { ticket, sizes, told }
                    }
                    Err(why) => PageReply::Failed { ticket, why },
                }
            }
            PageRequest::Paint { ticket, page, ppi } => {
                self.ticket = ticket;
                let now = self.now.as_ref().filter(|(of, _)| *of == ticket);
                let image = now.and_then(|(_, laid)| painted(laid, page, ppi));
                PageReply::Painted { ticket, page, ppi, image: image.unwrap_or_default() }
            }
        };
        forget();
        Some(reply)
    }

    fn panicked(&mut self, why: String) -> Option<PageReply> {
        Some(PageReply::Failed { ticket: self.ticket, why })
    }
}

/// What is to be written.
#[derive(Debug)]
pub(super) enum FileRequest {
    /// The papers of one plan, saved or not.
    Plan { document: Box<Document>, plan: PathBuf, out: PathBuf, choice: Choice },
    /// The papers of every plan in a folder; once `stop` is set no further one is begun.
    Folder { plans: PathBuf, out: PathBuf, choice: Choice, stop: Arc<AtomicBool> },
}

/// What comes of it.
#[derive(Debug)]
pub(super) enum FileReply {
    /// How far writing is.
    Step { done: usize, of: usize, failed: Option<String> },
    /// It has ended.
    Ended(Box<Summary>),
}

/// How writing ended.
#[derive(Clone, Debug, Default)]
pub(super) struct Summary {
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

struct Files;

impl Job for Files {
    type Request = FileRequest;
    type Reply = FileReply;

    fn run(
        &mut self,
        request: FileRequest,
        _: &CancelToken,
        replies: &ReplySender<FileReply>,
    ) -> Option<FileReply> {
        let summary = match request {
            FileRequest::Plan { document, plan, out, choice } => {
                let mut summary = Summary { folder: out.clone(), ..Summary::default() };
                let choice = with_a_day(choice, &document, &plan);
                summary.add(write_plan(&document, &plan, &out, &choice));
                summary
            }
            FileRequest::Folder { plans, out, choice, stop } => {
                write_folder(&plans, &out, &choice, &stop, replies)
            }
        };
        Some(FileReply::Ended(Box::new(summary)))
    }

    fn panicked(&mut self, why: String) -> Option<FileReply> {
        let summary = Summary { failed: vec![why], ..Summary::default() };
        Some(FileReply::Ended(Box::new(summary)))
    }
}

fn write_folder(
    plans: &Path,
    out: &Path,
    choice: &Choice,
    stop: &AtomicBool,
    replies: &ReplySender<FileReply>,
) -> Summary {
    let mut summary = Summary { folder: out.to_owned(), ..Summary::default() };
    let found = match plans_in(plans) {
        Ok(found) if !found.is_empty() => found,
        Ok(_) => {
            summary.failed.push(format!(
                "{} holds no plan: choose a folder where plans lie beside their pictures",
                plans.display()
            ));
            return summary;
        }
        Err(error) => {
            summary.failed.push(format!("{} cannot be read: {error}", plans.display()));
            return summary;
        }
    };
    let all = found.len();
    let outcomes = write_all(&found, out, choice, stop, &mut |step| {
        let failed = step.last.ended.as_ref().err().map(ToString::to_string);
        replies.send(FileReply::Step { done: step.done, of: step.of, failed });
    });
    match outcomes {
        Ok(outcomes) => {
            summary.stopped = outcomes.len() < all;
            for outcome in outcomes {
                summary.add(outcome.ended);
            }
        }
        Err(error) => summary.failed.push(error.to_string()),
    }
    summary
}

/// Writes one paper where nothing is kept and gives it to the system's viewer, which can also
/// print it.
struct Viewer;

impl Job for Viewer {
    type Request = Wanted;
    type Reply = Result<PathBuf, String>;

    fn run(
        &mut self,
        wanted: Wanted,
        _: &CancelToken,
        _: &ReplySender<Self::Reply>,
    ) -> Option<Self::Reply> {
        Some(shown(&wanted))
    }

    fn panicked(&mut self, why: String) -> Option<Self::Reply> {
        Some(Err(why))
    }
}

impl Summary {
    fn add(&mut self, written: Result<Written, PapersError>) {
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
