//! What a work is, and its corrections.

use std::path::{Path, PathBuf};

use egui::{Button, Ui};
use sightedge_core::length::Unit;
use sightedge_studio::{Format, NewWork, Subject, Work};

use super::back::corrected_back;
use super::fields::{WIDE, field, figure, line, why};
use super::size::SizeFields;
use super::{FormEvent, note};
use crate::window::screens::editions::messages::{Change, Outcome};
use crate::window::widgets;
use sightedge_service::record::{self, Correcting};

/// The words and years of a work.
#[derive(Clone, PartialEq, Debug, Default)]
pub(super) struct WorkFields {
    title: String,
    pub(super) maker: String,
    taken: String,
    printed: String,
    medium: String,
    paper: String,
    /// What a certificate tells beside that, in the order of [`MORE`].
    more: [String; 5],
}

/// Label, name and hint of what a certificate tells.
const MORE: [(&str, &str, &str); 5] = [
    ("Process", "Process", "inkjet with pigments, photogravure"),
    ("Signed", "How and where signed", "in pencil, on the back, lower right"),
    ("Authorised", "Authorised by", "by the maker; or posthumous, by the estate"),
    ("Negative", "What becomes of negative, plate or file", "kept, cancelled, destroyed"),
    ("Others", "Other editions", "in other sizes or media, not in this record"),
];

impl WorkFields {
    pub(super) fn of(work: &NewWork) -> Self {
        let year = |year: Option<i64>| year.map(|year| year.to_string()).unwrap_or_default();
        Self {
            title: work.title.clone(),
            maker: work.maker.clone(),
            taken: year(work.taken),
            printed: year(work.printed),
            medium: work.medium.clone(),
            paper: work.paper.clone(),
            more: [&work.process, &work.signed, &work.authorised, &work.master, &work.others]
                .map(Clone::clone),
        }
    }

    pub(super) fn show(&mut self, ui: &mut Ui) {
        line(ui, "Title", &mut self.title, "as it is to be written");
        line(ui, "Maker", &mut self.maker, "the name you sign with");
        line(ui, "Year taken", &mut self.taken, "four figures");
        line(ui, "Year printed", &mut self.printed, "where it is another year");
        line(ui, "Medium", &mut self.medium, "as on a label: pigment print");
        line(ui, "Paper", &mut self.paper, "or other support");
    }

    /// What a certificate tells beside that.
    pub(super) fn show_more(&mut self, ui: &mut Ui) {
        ui.add_space(4.0);
        // Folded, so that what every work needs is in sight; open where something is in it.
        let open = self.more.iter().any(|text| !text.is_empty());
        let heading = egui::CollapsingHeader::new("For the certificate").default_open(open);
        heading.show_unindented(ui, |ui| {
            for (text, (label, name, hint)) in self.more.iter_mut().zip(MORE) {
                widgets::row(ui, label, |ui| field(ui, name, text, hint, WIDE));
            }
            widgets::note(ui, "Some laws on the sale of prints ask for these.");
        });
    }

    /// All that is typed of the work; what is not in these fields is that of `rest`.
    pub(super) fn read(&self, rest: &NewWork) -> Result<NewWork, String> {
        let year = |text: &str, what: &str| match text.trim() {
            "" => Ok(None),
            text if text.len() != 4 => {
                Err(format!("\"{text}\" is no {what}: type four figures, as in 2021."))
            }
            text => figure(text, what, "2021").map(|year| Some(i64::from(year))),
        };
        let [process, signed, authorised, master, others] = self.more.clone();
        Ok(NewWork {
            process,
            signed,
            authorised,
            master,
            others,
            title: self.title.clone(),
            maker: self.maker.clone(),
            taken: year(&self.taken, "year taken")?,
            printed: year(&self.printed, "year printed")?,
            medium: self.medium.clone(),
            paper: self.paper.clone(),
            ..rest.clone()
        })
    }
}

/// A work that is corrected, with the sizes it is printed in.
#[derive(Clone, PartialEq, Debug)]
pub(in super::super) struct Details {
    work: Work,
    catalogue: String,
    /// Whether it was entered by mistake, and is off the lists.
    withdrawn: bool,
    fields: WorkFields,
    notes: String,
    picture: String,
    sizes: Vec<(Format, SizeFields)>,
    why: String,
    /// The picture of the open plan, where it is another one.
    open: Option<PathBuf>,
}

impl Details {
    pub(in super::super) fn of(
        work: &Work,
        formats: &[Format],
        open: Option<PathBuf>,
        unit: Unit,
    ) -> Self {
        let what = &work.what;
        let size = |format: &Format| (format.clone(), SizeFields::of(&format.what, unit));
        Self {
            work: work.clone(),
            catalogue: work.catalogue.clone(),
            withdrawn: work.withdrawn,
            fields: WorkFields::of(what),
            notes: what.notes.clone(),
            picture: what.picture.clone(),
            sizes: formats.iter().map(size).collect(),
            why: String::new(),
            open: open.filter(|open| *open != Path::new(&what.picture)),
        }
    }

    /// The work and its sizes.
    pub(super) fn subjects(&self) -> Vec<Subject> {
        let sizes = self.sizes.iter().map(|(format, _)| Subject::Format(format.id));
        [Subject::Work(self.work.id)].into_iter().chain(sizes).collect()
    }

    pub(super) fn heading(&self) -> String {
        format!("Correct {}, {}", self.work.catalogue, self.work.what.title)
    }

    pub(super) fn picture(&mut self, path: &Path) {
        self.picture = path.to_string_lossy().into_owned();
    }

    pub(super) fn show(&mut self, ui: &mut Ui, _: Unit) -> Option<FormEvent> {
        self.fields.show(ui);
        self.fields.show_more(ui);
        ui.add_space(8.0);
        let mut event = None;
        let button = 84.0;
        widgets::row(ui, "Picture", |ui| {
            let wide = WIDE - button - ui.spacing().item_spacing.x;
            field(ui, "Picture", &mut self.picture, "its file", wide);
            if ui
                .add_sized([button, crate::window::theme::ROW], Button::new("Choose…"))
                .clicked()
            {
                let near = Path::new(&self.picture).parent().unwrap_or(Path::new(""));
                event = Some(FormEvent::ChoosePicture(near.to_owned()));
            }
        });
        if let Some(open) = self.open.clone() {
            widgets::row(ui, "", |ui| {
                let name = open.file_name().unwrap_or_default().to_string_lossy();
                let hint = open.display().to_string();
                if ui
                    .button(format!("Take {name}, which is open"))
                    .on_hover_text(hint)
                    .clicked()
                {
                    self.picture(&open);
                }
            });
        }
        line(ui, "Notes", &mut self.notes, "your own");
        for (at, (_, size)) in self.sizes.iter_mut().enumerate() {
            ui.add_space(8.0);
            ui.label(if at == 0 { "Printed in this size" } else { "And in this size" });
            size.show(ui, at + 1);
        }
        ui.add_space(8.0);
        line(ui, "Number", &mut self.catalogue, "its number in your catalogue");
        widgets::row(ui, "", |ui| {
            let hint = "Off the list, and no print of it can be issued; its history stays, and it \
                        can be brought back";
            ui.checkbox(&mut self.withdrawn, "Withdrawn: it was entered by mistake")
                .on_hover_text(hint);
        });
        let asks =
            self.withdrawn && !self.work.withdrawn || self.catalogue != self.work.catalogue;
        if asks {
            ui.add_space(8.0);
            line(ui, "Why", &mut self.why, "for the history; needed here");
        } else {
            why(ui, &mut self.why);
        }
        widgets::note(
            ui,
            "The history of the work keeps what was there before. Printouts written before stay \
             as they are.",
        );
        event
    }

    pub(super) fn read(&self, unit: Unit) -> Result<Change, String> {
        let rest = NewWork {
            notes: self.notes.clone(),
            picture: self.picture.trim().to_owned(),
            ..self.work.what.clone()
        };
        let now = self.fields.read(&rest)?;
        let mut sizes = Vec::new();
        for (was, fields) in &self.sizes {
            sizes.push((Some(was.clone()), fields.read(unit, &was.what)?));
        }
        let (work, why) = (self.work.clone(), self.why.clone());
        let number = Some((work.catalogue.clone(), self.catalogue.clone()));
        let withdrawn = Some(self.withdrawn);
        Ok(Box::new(move |record| {
            let (id, catalogue) = (work.id, work.catalogue.clone());
            let correcting = Correcting {
                catalogue: number,
                withdrawn,
                work: Some((work, now)),
                sizes,
                ..Correcting::default()
            };
            let corrected = record::correct(record, id, correcting, &note(&why))?;
            let said = if corrected.any() {
                let how = match corrected.made.withdrawn {
                    Some(true) => "withdrawn and off the list",
                    Some(false) => "back on the list",
                    None => "corrected",
                };
                format!("{catalogue} is {how}; its history keeps what was there before.")
            } else {
                format!("{catalogue} stays as it was.")
            };
            let undo = corrected_back(id, corrected, format!("correcting {catalogue}"));
            Ok(Outcome { said, undo, look: Some(id), ..Outcome::default() })
        }))
    }
}
