//! What goes to the bench: pages as they will print, and the files that are written.

mod controls;
mod pages;
mod worker;

use std::path::PathBuf;
use std::sync::Arc;
use std::sync::atomic::AtomicBool;

use egui::{CentralPanel, Frame, Margin, Panel, Ui};
use sightedge_core::material::Tables;
use sightedge_core::spec::Document;
use sightedge_papers::{Choice, House, Kind, Paper};

use crate::window::context::{Requests, ScreenContext};
use crate::window::request::AppCommand;
use crate::window::session::SessionId;
use crate::window::theme;
use pages::{Pages, Zoom};
use worker::{
    FileReply, FileRequest, PageReply, PageRequest, Purpose, Summary, Wanted, Workers,
};

/// Whose printouts are written.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
enum Scope {
    /// Those of the plan in front.
    #[default]
    Front,
    /// Those of every plan in a folder.
    Folder,
}

/// What is written besides the printouts themselves.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
enum Drawing {
    /// For programs that draw.
    Svg,
    /// For machines that cut.
    Dxf,
    /// The cut list.
    List,
}

/// What is to be written, and how.
#[derive(Clone, Debug)]
struct Selection {
    kinds: Vec<Kind>,
    drawings: Vec<Drawing>,
    /// `None` for what is usual where the plan's unit is.
    paper: Option<Paper>,
    scope: Scope,
    /// Where plans are taken from, and where printouts go; `None` for beside the plan in front.
    plans: Option<PathBuf>,
    out: Option<PathBuf>,
}

impl Default for Selection {
    fn default() -> Self {
        Self {
            kinds: Kind::ALL.to_vec(),
            drawings: Vec::new(),
            paper: None,
            scope: Scope::Front,
            plans: None,
            out: None,
        }
    }
}

/// What is being written, or how it ended.
#[derive(Debug, Default)]
enum Writing {
    #[default]
    Nothing,
    /// So many of so many plans are done; what failed so far.
    Now {
        done: usize,
        of: usize,
        failed: usize,
        stopping: bool,
    },
    Ended(Box<Summary>),
}

/// What decides how pages look: when it changes they are set anew.
#[derive(Clone, PartialEq, Eq, Debug)]
struct Key {
    session: SessionId,
    revision: u64,
    kind: Kind,
    paper: Paper,
    house: House,
}

/// The place where printouts are looked at and written.
#[derive(Debug)]
pub(super) struct Printouts {
    kind: Kind,
    selection: Selection,
    zoom: Zoom,
    key: Option<Key>,
    ticket: u64,
    pages: Pages,
    workers: Option<Workers>,
    writing: Writing,
    /// Stops writing the printouts of a folder.
    stop: Arc<AtomicBool>,
}

impl Default for Printouts {
    fn default() -> Self {
        Self {
            kind: Kind::Sheet,
            selection: Selection::default(),
            zoom: Zoom::default(),
            key: None,
            ticket: 0,
            pages: Pages::default(),
            workers: None,
            writing: Writing::Nothing,
            stop: Arc::default(),
        }
    }
}

/// The plan in front, as printouts need it.
struct Front<'a> {
    id: SessionId,
    revision: u64,
    document: &'a Document,
    plan: &'a std::path::Path,
    tables: &'a Tables,
    house: &'a House,
}

impl Printouts {
    /// Jobs that are not done.
    pub(super) fn pending(&self) -> usize {
        self.workers.as_ref().map_or(0, Workers::pending)
    }

    /// Whether something is being written, or did not go well.
    pub(super) fn waits(&self) -> bool {
        match &self.writing {
            Writing::Nothing => false,
            Writing::Now { .. } => true,
            Writing::Ended(ended) => !ended.failed.is_empty(),
        }
    }

    /// Nearer, farther, or all of a page; whether that was what was asked.
    pub(super) fn command(&mut self, command: &AppCommand) -> bool {
        match command {
            AppCommand::ZoomIn => self.zoom = Zoom::nearer(self.pages.percent()),
            AppCommand::ZoomOut => self.zoom = Zoom::farther(self.pages.percent()),
            AppCommand::Fit => self.zoom = Zoom::Page,
            _ => return false,
        }
        true
    }

    /// Shows it in what is left of the window.
    pub(super) fn show(&mut self, ui: &mut Ui, cx: ScreenContext<'_>, requests: &mut Requests) {
        let Some(index) = cx.front else { return };
        let Some((id, session)) = cx.sessions.get(index) else { return };
        self.listen(ui, requests);
        let front = Front {
            id: *id,
            revision: session.revision(),
            document: session.document(),
            plan: &session.plan,
            tables: cx.tables,
            house: &cx.settings.studio,
        };
        let palette = theme::palette(ui);
        let side = Frame::new().fill(palette.panel).inner_margin(Margin::symmetric(16, 8));
        Panel::left("printouts").frame(side).resizable(false).exact_size(316.0).show(
            ui,
            |ui| {
                self.controls(ui, &front, requests);
            },
        );
        let grey = egui::Color32::from_gray(cx.settings.surround);
        CentralPanel::default().frame(Frame::new().fill(palette.panel)).show(ui, |ui| {
            self.bar(ui, &front);
            self.want(ui, &front);
            let Self { pages, workers, zoom, ticket, kind, .. } = self;
            let pinched = pages.show(ui, *kind, *zoom, grey, &mut |page, ppi| {
                if let Some(workers) = workers {
                    workers.pages.request(PageRequest::Paint { ticket: *ticket, page, ppi });
                }
            });
            if let Some(to) = pinched {
                *zoom = to;
            }
        });
    }

    fn paper(&self, front: &Front<'_>) -> Paper {
        self.selection.paper.unwrap_or(Paper::usual(front.document.unit))
    }

    /// The paper in front as it is wanted now.
    fn wanted(&self, front: &Front<'_>) -> Wanted {
        Wanted {
            ticket: self.ticket,
            kind: self.kind,
            document: front.document.clone(),
            plan: front.plan.to_owned(),
            paper: self.paper(front),
            tables: front.tables.clone(),
            house: front.house.clone(),
        }
    }

    /// Has the pages set anew where something changed.
    fn want(&mut self, ui: &Ui, front: &Front<'_>) {
        let Front { id: session, revision, .. } = *front;
        let house = front.house.clone();
        let key = Key { session, revision, kind: self.kind, paper: self.paper(front), house };
        if self.key.as_ref() == Some(&key) {
            return;
        }
        let other = self
            .key
            .as_ref()
            .is_none_or(|old| old.session != key.session || old.kind != key.kind);
        self.key = Some(key);
        self.ticket += 1;
        self.pages.expect(other);
        let wanted = self.wanted(front);
        self.workers(ui).lay(wanted);
    }

    fn workers(&mut self, ui: &Ui) -> &mut Workers {
        self.workers.get_or_insert_with(|| Workers::new(ui.ctx()))
    }

    /// Where printouts go: what was chosen, else a folder beside the plan.
    fn out(&self, front: &Front<'_>) -> PathBuf {
        let beside = || front.plan.parent().unwrap_or(front.plan).join("printouts");
        self.selection.out.clone().unwrap_or_else(beside)
    }

    fn plans(&self, front: &Front<'_>) -> PathBuf {
        let beside = || front.plan.parent().unwrap_or(front.plan).to_owned();
        self.selection.plans.clone().unwrap_or_else(beside)
    }

    /// Writes what is selected.
    fn write(&mut self, ui: &Ui, front: &Front<'_>) {
        let has = |drawing| self.selection.drawings.contains(&drawing);
        let choice = Choice {
            kinds: self.selection.kinds.clone(),
            svg: has(Drawing::Svg),
            dxf: has(Drawing::Dxf),
            csv: has(Drawing::List),
            paper: self.selection.paper,
            day_there: sightedge_service::dates::day_of,
            tables: Some(front.tables.clone()),
            house: front.house.clone(),
            ..Choice::default()
        };
        let (out, plans) = (self.out(front), self.plans(front));
        self.writing = Writing::Now { done: 0, of: 0, failed: 0, stopping: false };
        let request = match self.selection.scope {
            Scope::Front => {
                let (document, plan) =
                    (Box::new(front.document.clone()), front.plan.to_owned());
                FileRequest::Plan { document, plan, out, choice }
            }
            Scope::Folder => {
                self.stop = Arc::default();
                let stop = Arc::clone(&self.stop);
                FileRequest::Folder { plans, out, choice, stop }
            }
        };
        self.workers(ui).files.request(request);
    }

    /// Takes in what the workers replied.
    fn listen(&mut self, ui: &Ui, requests: &mut Requests) {
        let Some(workers) = &mut self.workers else { return };
        for reply in workers.pages.replies() {
            match reply {
                PageReply::LaidOut { ticket, sizes, told } if ticket == self.ticket => {
                    self.pages.laid(sizes, told);
                }
                PageReply::Failed { ticket, why } if ticket == self.ticket => {
                    self.pages.failed(why);
                }
                PageReply::Painted { ticket, page, ppi, image } if ticket == self.ticket => {
                    self.pages.painted(ui.ctx(), page, ppi, image);
                }
                // Of a paper that is no longer in front.
                PageReply::LaidOut { .. }
                | PageReply::Failed { .. }
                | PageReply::Painted { .. } => {}
            }
        }
        for reply in workers.files.replies() {
            match reply {
                FileReply::Step { done, of, failed } => {
                    if let Writing::Now { done: d, of: o, failed: f, .. } = &mut self.writing {
                        (*d, *o) = (done, of);
                        *f += usize::from(failed.is_some());
                    }
                }
                FileReply::Ended(summary) => self.writing = Writing::Ended(summary),
            }
        }
        for reply in workers.viewer.replies() {
            requests.said = Some(match reply {
                Ok(file) => {
                    let name = file.file_name().unwrap_or_default().to_string_lossy();
                    format!("{name} was given to the system’s viewer.")
                }
                Err(why) => why,
            });
        }
        for chosen in workers.dialogs.closed() {
            match (chosen.what, chosen.path) {
                (_, None) => {}
                (Purpose::Printouts, folder) => self.selection.out = folder,
                (Purpose::Plans, folder) => self.selection.plans = folder,
            }
        }
    }
}
