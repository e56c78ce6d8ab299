//! Writes printouts, and hands one to the system's viewer.

use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::sync::atomic::AtomicBool;

use sightedge_core::spec::Document;
use sightedge_papers::{Choice, PapersError, Written, day_of, write_all, write_plan};
use sightedge_pictures::CancelToken;

use super::Wanted;
use crate::window::workers::{Job, ReplySender};
use sightedge_service::dates;
use sightedge_service::files::plans_in;

/// What is to be written.
#[derive(Debug)]
pub(in super::super) enum FileRequest {
    /// The printouts of one plan, saved or not.
    Plan { document: Box<Document>, plan: PathBuf, out: PathBuf, choice: Choice },
    /// The printouts of every plan in a folder; once `stop` is set no further one is begun.
    Folder { plans: PathBuf, out: PathBuf, choice: Choice, stop: Arc<AtomicBool> },
}

/// What comes of it.
#[derive(Debug)]
pub(in super::super) enum FileReply {
    /// How far writing is.
    Step { done: usize, of: usize, failed: Option<String> },
    /// It has ended.
    Ended(Box<Summary>),
}

/// How writing ended.
#[derive(Clone, Debug, Default)]
pub(in super::super) struct Summary {
    pub(in super::super) folder: PathBuf,
    /// Plans whose printouts are written.
    pub(in super::super) plans: usize,
    pub(in super::super) files: usize,
    /// What went wrong, each with its plan.
    pub(in super::super) failed: Vec<String>,
    /// What the person should know.
    pub(in super::super) told: Vec<String>,
    /// Whether it was stopped.
    pub(in super::super) stopped: bool,
}

pub(super) struct Files;

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
pub(super) struct Viewer;

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
            Ok(Written { files, notes }) => {
                self.plans += 1;
                self.files += files.len();
                for words in notes {
                    if !self.told.contains(&words) {
                        self.told.push(words);
                    }
                }
            }
            Err(error) => self.failed.push(error.to_string()),
        }
    }
}

/// A plan that was never saved has the printouts of today.
fn with_a_day(mut choice: Choice, document: &Document, plan: &Path) -> Choice {
    let of_plan = || day_of(document, plan, dates::day_of).unwrap_or_else(dates::today);
    choice.date = Some(choice.date.unwrap_or_else(of_plan));
    choice
}

fn shown(wanted: &Wanted) -> Result<PathBuf, String> {
    let folder = std::env::temp_dir().join("sightedge-printouts");
    let choice = Choice {
        kinds: vec![wanted.kind],
        svg: false,
        dxf: false,
        csv: false,
        paper: Some(wanted.paper),
        tables: Some(wanted.tables.clone()),
        house: wanted.house.clone(),
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
