//! A new work and its edition.

use egui::{Button, TextEdit, Ui};
use sightedge_studio::{
    Error, Money, NewEdition, NewFormat, NewWork, Note, Record, State, TakenOver, Tier,
};

use super::record::Made;
use crate::desk::Desk;
use crate::{studio, theme, widgets};

/// What was typed so far.
#[derive(Clone, Debug, Default)]
pub(super) struct Form {
    work: NewWork,
    format: NewFormat,
    taken: String,
    printed: String,
    size: String,
    price: String,
    /// Printer's proofs, hors commerce, trial proofs.
    others: [String; 3],
    fraction: bool,
    /// Whether it counts this size of the work alone.
    one_size: bool,
    unknown: String,
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
    one_size: bool,
    price: Option<String>,
    out: u32,
    unknown: Vec<u32>,
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
        line(ui, "printed", &mut self.printed, "where it is another year");
        line(ui, "Medium", &mut self.work.medium, "as on a label");
        line(ui, "Paper", &mut self.work.paper, "");
        ui.add_space(8.0);
        line(ui, "Edition of", &mut self.size, "how many there are to be");
        line(ui, "Proofs, %", &mut self.proofs, "of the edition");
        self.other_proofs(ui, wide);
        line(ui, "Price", &mut self.price, "as in 800 EUR; may be empty");
        line(ui, "Out already", &mut self.out, "0, or the last number that is out");
        if !self.out.trim().is_empty() && self.out.trim() != "0" {
            line(ui, "not known", &mut self.unknown, "numbers nobody knows where: 3, 7");
        }
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

    /// The proofs of other kinds, how proofs are numbered, and what the edition counts.
    fn other_proofs(&mut self, ui: &mut Ui, wide: f32) {
        widgets::row(ui, "PP, HC, TP", |ui| {
            let names = ["Printer's proofs", "Hors commerce", "Trial proofs"];
            let each = (wide - 2.0 * ui.spacing().item_spacing.x) / 3.0;
            for (text, name) in self.others.iter_mut().zip(names) {
                let edit = TextEdit::singleline(text).desired_width(each).hint_text("0");
                let response = ui.add(edit).on_hover_text(name);
                let value = text.clone();
                response.widget_info(|| {
                    let mut info = egui::WidgetInfo::text_edit(true, "", &value, "0");
                    info.label = Some(name.to_owned());
                    info
                });
            }
        });
        widgets::row(ui, "numbered", |ui| {
            let options = [(false, "AP II/V"), (true, "AP 2/5")];
            let now = Some(self.fraction);
            let picked = widgets::choice(ui, "Proofs numbered", now, &options, wide);
            self.fraction = picked.unwrap_or(self.fraction);
        });
        if self.format != NewFormat::default() {
            widgets::row(ui, "counts", |ui| {
                let options = [(false, "all sizes together"), (true, "this size alone")];
                let now = Some(self.one_size);
                let picked = widgets::choice(ui, "Counts", now, &options, wide);
                self.one_size = picked.unwrap_or(self.one_size);
            });
        }
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
        let year = |text: &str| match text.trim() {
            "" => Ok(None),
            text => figure(text, "year", "2021").map(|year| Some(i64::from(year))),
        };
        (work.taken, work.printed) = (year(&self.taken)?, year(&self.printed)?);
        let size = figure(&self.size, "number of prints", "25")?;
        let share = figure(&self.proofs, "share of proofs in percent", "10")?;
        let out = self.out.trim();
        let out = if out.is_empty() { 0 } else { figure(out, "number", "47")? };
        let mut edition = NewEdition::of(size, share);
        edition.roman = !self.fraction;
        let count = |text: &str| match text.trim() {
            "" => Ok(0),
            text => figure(text, "number of proofs", "2"),
        };
        let [printer, hors_commerce, trial] = &self.others;
        edition.printer = count(printer)?;
        edition.hors_commerce = count(hors_commerce)?;
        edition.trial = count(trial)?;
        let unknown = self.unknown.split([',', ' ']).filter(|text| !text.is_empty());
        let unknown = unknown.map(|text| figure(text, "number", "3, 7"));
        let unknown = if out > 0 { unknown.collect::<Result<_, _>>()? } else { Vec::new() };
        let price = Some(self.price.trim().to_owned()).filter(|price| !price.is_empty());
        let one_size = self.one_size;
        let format = self.format.clone();
        Ok(Adding { work, format, edition, one_size, price, out, unknown })
    }
}

impl Adding {
    /// Adds it.
    pub(super) fn run(self, record: &mut dyn Record) -> Result<Made, Error> {
        let Self { work, format, mut edition, one_size, price, out, unknown } = self;
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
        if let Some(wrong) = unknown.iter().find(|number| !(1..=out).contains(*number)) {
            return Err(Error::Unreadable(format!(
                "{wrong} is said to be out and not known where, and 1 to {out} are out"
            )));
        }
        let usual = record.setting("currency")?.unwrap_or_else(|| "EUR".to_owned());
        let price = price.map(|text| Money::read(&text, &usual)).transpose();
        let price = price.map_err(Error::Unreadable)?;
        let id = record.add_work(&work, None, &note)?;
        if format != NewFormat::default() {
            let format = record.add_format(id, &format, &note)?;
            edition.format = Some(format).filter(|_| one_size);
        }
        let edition = record.open_edition(id, &edition, &note)?;
        if let Some(price) = price {
            if price.currency != usual {
                record.set("currency", &price.currency)?;
            }
            record.set_tier(&Tier { edition, from: 1, price }, &note)?;
        }
        if out > 0 {
            let taken = TakenOver { edition, from: 1, to: out, unknown, state: State::Sold };
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
