//! What goes with a print or to a show, chosen and written as PDF.

mod house;
mod labels;

use std::path::{Path, PathBuf};

use egui::{Button, Label, RichText, Ui};
use sightedge_core::length::Unit;
use sightedge_papers::{House, Paper, StudioPaper};

use crate::window::context::{Requests, ScreenContext};
use crate::window::workers::Keep;
use crate::window::{theme, widgets};
use sightedge_service::record::printouts::{Labels, Wanted, Whole, Written, usual_out};
use sightedge_service::{record, wording};

/// Which printouts.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
enum Sort {
    Labels,
    Certificate,
    Wall,
    Prices,
    Consignment,
}

impl Sort {
    const fn name(self) -> &'static str {
        match self {
            Self::Labels => "Labels for the backing",
            Self::Certificate => "Certificate of authenticity",
            Self::Wall => "Wall labels",
            Self::Prices => "Price list",
            Self::Consignment => "Consignment list, to be signed by both",
        }
    }

    const ONE: [Self; 2] = [Self::Labels, Self::Certificate];
    const SHOW: [Self; 5] =
        [Self::Wall, Self::Prices, Self::Consignment, Self::Labels, Self::Certificate];
}

/// Printouts that are being chosen, and how writing ended.
#[derive(Debug)]
pub(super) struct Printouts {
    /// What the files are called first.
    of: String,
    /// Where it hangs, for the printouts of a show.
    show: Option<String>,
    prints: Vec<Whole>,
    sorts: Vec<Sort>,
    labels: Labels,
    /// Whether it was read how labels were printed last.
    read: bool,
    /// What is printed on where none was chosen yet.
    usual: Paper,
    out: Option<PathBuf>,
    busy: bool,
    wrong: Option<String>,
    pub(super) ended: Option<Result<Written, String>>,
}

impl Printouts {
    /// Of one print.
    pub(super) fn of_print(cx: ScreenContext<'_>, whole: Whole) -> Self {
        let (work, edition, print) = &whole;
        let written = edition.what.notation(print.kind, print.number);
        let of = format!("{} {written}", work.catalogue);
        Self::new(cx, of, None, vec![whole], Sort::ONE.to_vec())
    }

    /// Of all that hangs at a show.
    pub(super) fn of_show(cx: ScreenContext<'_>, name: &str, prints: Vec<Whole>) -> Self {
        let sorts = vec![Sort::Wall, Sort::Prices, Sort::Consignment];
        Self::new(cx, name.to_owned(), Some(name.to_owned()), prints, sorts)
    }

    fn new(
        cx: ScreenContext<'_>,
        of: String,
        show: Option<String>,
        prints: Vec<Whole>,
        sorts: Vec<Sort>,
    ) -> Self {
        let usual = Paper::usual(cx.settings.unit());
        Self {
            of,
            show,
            prints,
            sorts,
            labels: Labels::usual(usual),
            read: false,
            usual,
            out: None,
            busy: false,
            wrong: None,
            ended: None,
        }
    }

    /// The folder they go to until another is chosen.
    pub(super) fn start_in(&mut self, usual: impl FnOnce() -> PathBuf) {
        self.out.get_or_insert_with(usual);
    }

    pub(super) fn folder(&mut self, folder: PathBuf) {
        self.out = Some(folder);
    }

    pub(super) fn written(&mut self, ended: Result<Written, String>) {
        (self.busy, self.ended) = (false, Some(ended));
    }

    fn sheet(&self) -> Paper {
        self.labels.sheet.unwrap_or(self.usual)
    }

    fn heading(&self) -> String {
        match (&self.show, self.prints.first()) {
            (Some(show), _) => {
                format!("Printouts for {show}, {}", wording::count(self.prints.len(), "print"))
            }
            (None, Some((work, edition, print))) => {
                let written = edition.what.notation(print.kind, print.number);
                format!("Printouts of {}, {written}", work.what.title)
            }
            (None, None) => "Printouts".to_owned(),
        }
    }

    fn what(&mut self, ui: &mut Ui) {
        widgets::group(ui, "What to write", |ui| {
            let all: &[Sort] = if self.show.is_some() { &Sort::SHOW } else { &Sort::ONE };
            for sort in all {
                let mut on = self.sorts.contains(sort);
                if ui.checkbox(&mut on, sort.name()).changed() {
                    self.sorts.retain(|one| one != sort);
                    if on {
                        self.sorts.push(*sort);
                    }
                }
            }
        });
        widgets::group(ui, "On", |ui| {
            widgets::row(ui, "paper", |ui| {
                let options = Paper::ALL.map(|paper| (paper, paper.label()));
                let width = widgets::field_width(ui, 1);
                let now = Some(self.sheet());
                let picked = widgets::choice(ui, "Paper", now, &options, width);
                if picked.is_some_and(|picked| Some(picked) != now) {
                    self.labels = self.labels.on(self.sheet(), picked);
                }
            });
        });
    }

    /// What is to be written, where all of it fits.
    fn wanted(&self, unit: Unit, out: PathBuf, house: &House) -> Result<Wanted, String> {
        let place = self.show.clone().unwrap_or_default();
        let kinds = self.sorts.iter().map(|sort| match sort {
            Sort::Labels => self.labels.paper(self.sheet(), unit),
            Sort::Certificate => Ok(StudioPaper::Certificate),
            Sort::Wall => Ok(StudioPaper::Wall),
            Sort::Prices => Ok(StudioPaper::Prices(place.clone())),
            Sort::Consignment => Ok(StudioPaper::Consignment {
                place: place.clone(),
                sums: record::sums_in_words(&record::sums_of(
                    self.prints.iter().map(|one| &one.2),
                )),
            }),
        });
        let kinds = kinds.collect::<Result<Vec<_>, _>>()?;
        let date = sightedge_service::dates::today();
        let house = house.clone();
        Ok(Wanted { of: self.of.clone(), kinds, sheet: self.sheet(), date, out, house })
    }
}

/// What was pressed on the page.
pub(super) enum PrintoutsEvent {
    Leave,
    /// The dialog for the folder, beginning there.
    ChooseFolder(PathBuf),
    /// Printouts of these prints are to be written.
    Write(Box<(Wanted, Vec<Whole>)>),
}

impl Printouts {
    /// Shows the page; `home` is the folder of the record. What went wrong with opening a paper
    /// is put into `failed`.
    pub(super) fn show(
        &mut self,
        ui: &mut Ui,
        cx: ScreenContext<'_>,
        home: &Path,
        failed: &mut Option<String>,
        requests: &mut Requests,
    ) -> Option<PrintoutsEvent> {
        if !std::mem::replace(&mut self.read, true) {
            self.labels = cx.storage.labels(requests).unwrap_or(self.labels);
        }
        let unit = cx.settings.unit();
        let heading = RichText::new(self.heading());
        let wide = widgets::fitted(ui, heading.text(), ui.available_width() * 0.8);
        ui.label(RichText::new(wide).family(theme::strong()).size(theme::HEADING));
        let out = self.out.clone().unwrap_or_else(|| usual_out(home));
        let (mut leave, mut asked, mut go) = (false, false, None);
        egui::ScrollArea::vertical()
            .id_salt("studio printouts")
            .auto_shrink([false, false])
            .show(ui, |ui| {
                ui.set_max_width(420.0);
                self.what(ui);
                if self.sorts.contains(&Sort::Labels) {
                    self.grid(ui, unit);
                }
                house::show(ui, &cx.settings.studio, requests);
                let (label, name) = ("Write to", "Folder for printouts");
                asked = widgets::folder_row(ui, label, name, &out, &mut self.out);
                ui.add_space(theme::GROUP);
                // A folder that was typed counts when the button is pressed after it.
                let out = self.out.clone().unwrap_or_else(|| out.clone());
                // Why it does not fit is told while it is set up, not when it is too late.
                let wanted = self.wanted(unit, out, &cx.settings.studio);
                let any = !self.sorts.is_empty() && !self.busy && wanted.is_ok();
                let palette = theme::palette(ui);
                ui.horizontal(|ui| {
                    let text = RichText::new("Write the printouts").color(palette.on_accent);
                    let write = Button::new(text).fill(palette.accent);
                    if ui.add_enabled(any, write).clicked() {
                        go = wanted.as_ref().ok().cloned();
                    }
                    leave = ui.button("Back to the numbers").clicked();
                });
                for words in [wanted.err(), self.wrong.clone()].into_iter().flatten() {
                    let words = wording::sentence(&words);
                    ui.add(Label::new(RichText::new(words).color(palette.fault)).wrap());
                }
                if let Some(ended) = &self.ended {
                    ended_in(ui, ended, failed);
                }
            });
        if let Some(wanted) = go {
            (self.busy, self.ended) = (true, None);
            requests.keep(Keep::Labels(Box::new(self.labels)));
            return Some(PrintoutsEvent::Write(Box::new((wanted, self.prints.clone()))));
        }
        if leave {
            return Some(PrintoutsEvent::Leave);
        }
        asked.then_some(PrintoutsEvent::ChooseFolder(out))
    }
}

/// What was written, each file to be opened.
fn ended_in(ui: &mut Ui, ended: &Result<Written, String>, failed: &mut Option<String>) {
    ui.add_space(theme::GAP);
    match ended {
        Ok(Written { files, told }) => {
            let folder = files.first().and_then(|file| file.parent());
            let folder = folder.map(|folder| folder.display().to_string()).unwrap_or_default();
            ui.add(Label::new(format!("Written in {folder}:")).wrap());
            for file in files {
                let name = file.file_name().unwrap_or_default().to_string_lossy();
                let open = ui.button(format!("Open {name}"));
                if open.on_hover_text("In the system's viewer, which can print it").clicked()
                    && let Err(error) = open::that_detached(file)
                {
                    *failed = Some(format!(
                        "No viewer could be started ({error}): open {} yourself.",
                        file.display()
                    ));
                }
            }
            for words in told {
                ui.add(Label::new(widgets::quiet(ui, words)).wrap());
            }
        }
        Err(words) => {
            let text = RichText::new(format!("Not written: {words}"));
            ui.add(Label::new(text.color(theme::palette(ui).fault)).wrap());
        }
    }
}
