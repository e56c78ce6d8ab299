//! What this place reads and writes off the frame: folders of plans, the list and the paper.

use std::path::{Path, PathBuf};

use egui::Context;
use sightedge_core::spec::Document;
use sightedge_pictures::CancelToken;

use crate::window::workers::{Dialog, Dialogs, Job, ReplySender, Target, Worker};
use sightedge_service::cutting::model::Cutting;
use sightedge_service::cutting::{list, paper};
use sightedge_service::files;

/// The workers of this place besides the search.
#[derive(Debug)]
pub(super) struct Workers {
    /// Reads the plans of folders, one after another.
    pub(super) folders: Worker<PathBuf, Folder>,
    /// Writes lists and printouts; replies where, or why not.
    pub(super) lists: Worker<List, String>,
    /// For a folder of plans.
    pub(super) dialogs: Dialogs<()>,
}

impl Workers {
    /// Each reply wakes `context`.
    pub(super) fn new(context: &Context) -> Self {
        Self {
            folders: Worker::new(context.clone(), Folders),
            lists: Worker::new(context.clone(), Lists),
            dialogs: Dialogs::new(context.clone()),
        }
    }

    /// How many requests are not done.
    pub(super) const fn pending(&self) -> usize {
        self.folders.pending() + self.lists.pending() + self.dialogs.pending()
    }

    /// Asks for a folder of plans, without holding up the window.
    pub(super) fn ask_for_folder(&mut self, near: Option<PathBuf>) {
        let title = "Add a folder of plans";
        self.dialogs.show((), Dialog { title, target: Target::Folder, near });
    }
}

/// A plan read from a folder.
#[derive(Debug)]
pub(super) struct PlanFile {
    pub(super) path: PathBuf,
    pub(super) document: Document,
}

/// What a folder or a file holds: plans, and sentences about those that cannot be read.
pub(super) type Folder = (Vec<PlanFile>, Vec<String>);

/// More plans than this are not taken from one folder.
const MOST_PLANS: usize = 500;

/// Opens every plan in a folder, or one plan.
struct Folders;

impl Job for Folders {
    type Request = PathBuf;
    type Reply = Folder;

    fn run(
        &mut self,
        path: PathBuf,
        token: &CancelToken,
        _: &ReplySender<Folder>,
    ) -> Option<Folder> {
        Some(read(&path, token))
    }

    fn panicked(&mut self, words: String) -> Option<Folder> {
        Some((Vec::new(), vec![words]))
    }
}

fn read(path: &Path, token: &CancelToken) -> Folder {
    let mut said = Vec::new();
    let mut paths = Vec::new();
    if path.is_dir() {
        match std::fs::read_dir(path) {
            Ok(entries) => {
                let entries = entries.filter_map(Result::ok).map(|entry| entry.path());
                paths.extend(entries.filter(|path| files::is_plan(path)));
            }
            Err(error) => said.push(format!("{} cannot be read: {error}", path.display())),
        }
        paths.sort();
        if paths.is_empty() && said.is_empty() {
            said.push(format!(
                "{} has no plans in it: save a plan beside its picture first",
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
        if token.is_cancelled() {
            break;
        }
        match files::open(&path) {
            Ok(opened) => found.push(PlanFile { path, document: opened.document }),
            Err(error) => said.push(error.to_string()),
        }
    }
    (found, said)
}

/// A list or a paper to be written.
#[derive(Debug)]
pub(super) struct List {
    pub(super) cutting: Cutting,
    /// Where, as it was typed.
    pub(super) place: PathBuf,
    /// `csv` for the list, `pdf` for the paper.
    pub(super) ending: &'static str,
}

struct Lists;

impl Job for Lists {
    type Request = List;
    type Reply = String;

    fn run(
        &mut self,
        List { cutting, place, ending }: List,
        _: &CancelToken,
        _: &ReplySender<String>,
    ) -> Option<String> {
        Some(write(&cutting, &place, ending))
    }

    fn panicked(&mut self, words: String) -> Option<String> {
        Some(format!("It could not be made: {words}"))
    }
}

/// Writes the list or the paper beside what is there already; says where, or why not.
fn write(cutting: &Cutting, place: &Path, ending: &str) -> String {
    let made = if ending == "csv" {
        list::csv(cutting).map(String::into_bytes).map_err(|error| error.to_string())
    } else {
        let name = place.file_stem().unwrap_or_default().to_string_lossy();
        let mut title: String = name.chars().take(1).flat_map(char::to_uppercase).collect();
        title.extend(name.chars().skip(1));
        paper::pdf(cutting, &title, sightedge_service::dates::today())
            .map(|made| made.bytes)
            .map_err(|error| error.to_string())
    };
    let bytes = match made {
        Ok(bytes) => bytes,
        Err(error) => return format!("It could not be made: {error}"),
    };
    let free = (1..1000).map(|number| numbered(place, number, ending)).find(|p| !p.exists());
    let path = free.unwrap_or_else(|| numbered(place, 1, ending));
    let written = std::fs::File::create_new(&path)
        .and_then(|mut file| std::io::Write::write_all(&mut file, &bytes));
    match written {
        Ok(()) => format!("Written: {}", path.display()),
        Err(error) => {
            format!("{} cannot be written: {error}. Type another place.", path.display())
        }
    }
}

/// `list.csv`, `list 2.csv`, `list 3.csv` …
fn numbered(place: &Path, number: u32, ending: &str) -> PathBuf {
    let known = place.extension().is_some_and(|e| e == "csv" || e == "pdf");
    let stem = if known { place.file_stem() } else { place.file_name() };
    let stem = stem.unwrap_or_default().to_string_lossy();
    let number = if number == 1 { String::new() } else { format!(" {number}") };
    place.with_file_name(format!("{stem}{number}.{ending}"))
}
