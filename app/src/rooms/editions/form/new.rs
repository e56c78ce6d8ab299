//! A new work and its edition.

use egui::Ui;
use sightedge_core::length::Unit;
use sightedge_studio::{NewEdition, NewFormat, NewWork};

use super::edition::{EditionFields, OutFields, PriceFields, set_prices, take_over};
use super::fields::WIDE;
use super::note;
use super::size::words;
use super::work::WorkFields;
use crate::desk::Desk;
use crate::rooms::editions::talk::{Change, Made};
use crate::{studio, widgets};

/// What was typed so far.
#[derive(Clone, PartialEq, Debug, Default)]
pub(in super::super) struct New {
    /// What the open plan tells besides: its picture.
    work: NewWork,
    format: NewFormat,
    fields: WorkFields,
    edition: EditionFields,
    prices: PriceFields,
    out: OutFields,
    /// Whether it counts this size of the work alone.
    one_size: bool,
}

impl New {
    /// An empty one, or what the open plan tells.
    pub(in super::super) fn of(desk: Option<&Desk>, maker: &str) -> Self {
        let (work, format) = desk.map_or_else(Default::default, |desk| {
            studio::of_plan(desk.document(), Some(&desk.plan))
        });
        let mut fields = WorkFields::of(&work);
        maker.clone_into(&mut fields.maker);
        Self { work, format, fields, ..Self::default() }
    }

    pub(super) fn show(&mut self, ui: &mut Ui, unit: Unit) {
        self.fields.show(ui);
        ui.add_space(8.0);
        self.edition.show(ui, false);
        self.prices.show(ui);
        if self.format != NewFormat::default() {
            widgets::row(ui, "counts", |ui| {
                let options = [(false, "all sizes together"), (true, "this size alone")];
                let now = Some(self.one_size);
                let picked = widgets::choice(ui, "Counts", now, &options, WIDE);
                self.one_size = picked.unwrap_or(self.one_size);
            });
            let size = words(&self.format, unit);
            widgets::note(ui, &format!("This size, from the open plan: {size}."));
        }
        self.out.show(ui);
    }

    pub(super) fn settle(&mut self) {
        self.prices.settle();
    }

    pub(super) fn read(&self) -> Result<Change, String> {
        let work = self.fields.read(&self.work)?;
        let mut edition = self.edition.read(&NewEdition::default())?;
        let prices = self.prices.read(edition.size)?;
        let out = self.out.read(edition.size)?;
        let (format, one_size) = (self.format.clone(), self.one_size);
        Ok(Box::new(move |record| {
            let note = note("");
            let id = record.add_work(&work, None, &note)?;
            if format != NewFormat::default() {
                let format = record.add_format(id, &format, &note)?;
                edition.format = Some(format).filter(|_| one_size);
            }
            let edition = record.open_edition(id, &edition, &note)?;
            set_prices(record, edition, &prices, &note)?;
            take_over(record, edition, out, &note)?;
            record.set("maker", &work.maker)?;
            Ok(Made {
                said: format!("{} is in the record.", work.title),
                look: Some(id),
                ..Made::default()
            })
        }))
    }
}
