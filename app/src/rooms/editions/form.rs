//! A new work and its edition.

use egui::{Button, TextEdit, Ui};
use sightedge_studio::{Error, NewEdition, NewFormat, NewWork, Note, Record, State, TakenOver};

use super::record::Made;
use crate::desk::Desk;
use crate::{studio, theme, widgets};

/// What was typed so far.
#[derive(Clone, Debug, Default)]
pub(super) struct Form {
    work: NewWork,
    format: NewFormat,
    taken: String,
    size: String,
    proofs: String,
    out: String,
    wrong: Option<String>,
}

/// What the person wants.
pub(super) enum Wish {
    Leave,
    Add(Box<Adding>),
}

/// What is to be added.
pub(super) struct Adding {
    work: NewWork,
    format: NewFormat,
    edition: NewEdition,
    out: u32,
}

impl Form {
    /// An empty one, or what the open plan tells.
    pub(super) fn of(desk: Option<&Desk>, maker: &str) -> Self {
        let (mut work, format) = desk.map_or_else(Default::default, |desk| {
            studio::of_plan(desk.document(), Some(&desk.plan))
        });
        maker.clone_into(&mut work.maker);
        Self {
            work,
            format,
            proofs: sightedge_studio::PROOF_SHARE.to_string(),
            ..Self::default()
        }
    }

    pub(super) fn show(&mut self, ui: &mut Ui) -> Option<Wish> {
        ui.label(
            egui::RichText::new("A work and its edition")
                .family(theme::strong())
                .size(theme::HEADING),
        );
        ui.add_space(8.0);
        let wide = 320.0;
        let line = |ui: &mut Ui, label: &str, text: &mut String, hint: &str| {
            widgets::row(ui, label, |ui| {
                let edit = TextEdit::singleline(text).desired_width(wide).hint_text(hint);
                let response = ui.add(edit);
                let value = text.clone();
                response.widget_info(|| {
                    let mut info = egui::WidgetInfo::text_edit(true, "", &value, hint);
                    info.label = Some(label.to_owned());
                    info
                });
            });
        };
        line(ui, "Title", &mut self.work.title, "as it is to be written");
        line(ui, "Maker", &mut self.work.maker, "the name you sign with");
        line(ui, "Year taken", &mut self.taken, "four figures");
        line(ui, "Medium", &mut self.work.medium, "as on a label");
        line(ui, "Paper", &mut self.work.paper, "");
        ui.add_space(8.0);
        line(ui, "Edition of", &mut self.size, "how many there are to be");
        line(ui, "Proofs, %", &mut self.proofs, "of the edition");
        line(ui, "Out already", &mut self.out, "0, or the last number that is out");
        widgets::note(
            ui,
            "How many there are to be is fixed by the first number that is issued.",
        );
        ui.add_space(8.0);
        if let Some(wrong) = &self.wrong {
            ui.label(egui::RichText::new(wrong).color(theme::palette(ui).stop));
        }
        let mut wish = None;
        ui.horizontal(|ui| {
            ui.add_space(88.0);
            if ui.add(Button::new("Add the work")).clicked() {
                match self.read() {
                    Ok(adding) => wish = Some(Wish::Add(Box::new(adding))),
                    Err(wrong) => self.wrong = Some(wrong),
                }
            }
            if ui.add(Button::new("Leave it")).clicked() {
                wish = Some(Wish::Leave);
            }
        });
        wish
    }

    fn read(&self) -> Result<Adding, String> {
        let mut work = self.work.clone();
        if work.title.trim().is_empty() {
            return Err("A title is wanted.".to_owned());
        }
        let figure = |text: &str, what: &str, example: &str| -> Result<u32, String> {
            text.trim()
                .parse()
                .map_err(|_| format!("\"{}\" is no {what}: try {example}.", text.trim()))
        };
        let year = self.taken.trim();
        if !year.is_empty() {
            work.taken = Some(i64::from(figure(year, "year", "2021")?));
        }
        let size = figure(&self.size, "number of prints", "25")?;
        let share = figure(&self.proofs, "share of proofs in percent", "10")?;
        let out = self.out.trim();
        let out = if out.is_empty() { 0 } else { figure(out, "number", "47")? };
        let edition = NewEdition::of(size, share);
        Ok(Adding { work, format: self.format.clone(), edition, out })
    }
}

impl Adding {
    /// Adds it.
    pub(super) fn run(self, record: &mut dyn Record) -> Result<Made, Error> {
        let Self { work, format, edition, out } = self;
        let note = Note::at(&studio::today());
        // Before anything is written, so that a slip leaves nothing half done.
        if out > edition.size {
            return Err(Error::Unreadable(format!(
                "{out} are said to be out of an edition of {}: no more than {1} is wanted",
                edition.size, edition.size
            )));
        }
        if edition.size == 0 || edition.proof_share > 100 {
            return Err(Error::Unreadable(
                "an edition has one print at least, and at most 100 % of proofs".to_owned(),
            ));
        }
        let id = record.add_work(&work, None, &note)?;
        if format != NewFormat::default() {
            record.add_format(id, &format, &note)?;
        }
        let edition = record.open_edition(id, &edition, &note)?;
        if out > 0 {
            let taken = TakenOver {
                edition,
                from: 1,
                to: out,
                unknown: Vec::new(),
                state: State::Sold,
            };
            record.take_over(&taken, &note)?;
        }
        record.set("maker", &work.maker)?;
        Ok(Made {
            said: format!("{} is in the record.", work.title),
            look: Some(id),
            ..Made::default()
        })
    }
}
