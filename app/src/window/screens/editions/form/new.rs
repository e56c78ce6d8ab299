//! A new work and its edition.

use egui::Ui;
use sightedge_core::length::Unit;
use sightedge_studio::{NewEdition, NewFormat, NewWork, WorkRef};

use super::edition::{EditionFields, OutFields, PriceFields};
use super::fields::WIDE;
use super::size::words;
use super::work::WorkFields;
use super::{STAYS, note};
use crate::window::screens::editions::messages::{Change, Outcome};
use crate::window::session::PlanSession;
use crate::window::widgets;
use sightedge_service::record::{self, Registering};

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
    /// The maker of the last work, who is proposed for this one.
    last: String,
}

impl New {
    /// An empty one, or what the open plan tells.
    pub(in super::super) fn of(session: Option<&PlanSession>, maker: &str) -> Self {
        let (work, format) = session.map_or_else(Default::default, |session| {
            record::of_plan(session.document(), Some(&session.plan))
        });
        let mut fields = WorkFields::of(&work);
        maker.clone_into(&mut fields.maker);
        Self { work, format, fields, last: maker.to_owned(), ..Self::default() }
    }

    pub(super) fn show(&mut self, ui: &mut Ui, unit: Unit, cost: &str) {
        self.fields.show(ui);
        if !self.last.is_empty() && self.fields.maker == self.last {
            widgets::row(ui, "", |ui| {
                ui.label(widgets::quiet(ui, "The maker is that of the last work."));
                if ui.button("Clear").on_hover_text("Somebody else made this one").clicked() {
                    self.fields.maker.clear();
                }
            });
        }
        ui.add_space(8.0);
        self.edition.show(ui, false);
        self.prices.show(ui, cost);
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
        self.fields.show_more(ui);
        widgets::note(ui, STAYS);
    }

    pub(super) fn settle(&mut self) {
        self.prices.settle();
    }

    pub(super) fn read(&self) -> Result<Change, String> {
        let work = self.fields.read(&self.work)?;
        let edition = self.edition.read(&NewEdition::default())?;
        let (prices, out) = (self.prices.read()?, self.out.read()?);
        let title = work.title.clone();
        let beginning = Registering {
            work: WorkRef::New(Box::new(work), None),
            format: self.format.clone(),
            alone: self.one_size,
            edition: Some(edition),
            prices,
            out,
        };
        Ok(Box::new(move |record| {
            let (id, _) = record::register(record, beginning, &note(""))?;
            Ok(Outcome {
                said: format!("{title} is in the record."),
                look: Some(id),
                ..Outcome::default()
            })
        }))
    }
}
