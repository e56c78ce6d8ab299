//! A size in which a work is printed, and another one with what it counts in.

use egui::Ui;
use sightedge_core::geometry::Size;
use sightedge_core::length::{Length, Unit, parse};
use sightedge_studio::{Format, FormatId, NewEdition, NewFormat, Work, WorkRef};

use super::edition::{EditionFields, OutFields, PriceFields};
use super::fields::{WIDE, field, part};
use super::{STAYS, note};
use crate::window::screens::editions::messages::{Change, Numbered, Outcome};
use crate::window::widgets;
use sightedge_service::record::{self, Registering};
use sightedge_service::wording;

/// What a size is called, and its image and sheet.
#[derive(Clone, PartialEq, Debug, Default)]
pub(super) struct SizeFields {
    name: String,
    image: [String; 2],
    sheet: [String; 2],
}

impl SizeFields {
    pub(super) fn of(format: &NewFormat, unit: Unit) -> Self {
        let words = |length: Length| {
            if length == Length::ZERO {
                String::new()
            } else {
                wording::set(&length.near(unit))
            }
        };
        let both = |size: Size| [words(size.width), words(size.height)];
        Self {
            name: format.name.clone(),
            image: both(format.image()),
            sheet: both(format.sheet()),
        }
    }

    /// The `at`th of several.
    pub(super) fn show(&mut self, ui: &mut Ui, at: usize) {
        let called = |what: &str| if at > 1 { format!("{what} {at}") } else { what.to_owned() };
        widgets::row(ui, "Name", |ui| {
            field(
                ui,
                &called("Name of the size"),
                &mut self.name,
                "as in large; may be empty",
                WIDE,
            );
        });
        for (label, texts) in [("Image", &mut self.image), ("Sheet", &mut self.sheet)] {
            widgets::row(ui, label, |ui| {
                let each = part(ui, 2);
                let [width, height] = texts;
                field(ui, &called(&format!("{label} width")), width, "width", each);
                field(ui, &called(&format!("{label} height")), height, "height", each);
            });
        }
    }

    /// What is typed; a length whose words are as they were stays what it was.
    pub(super) fn read(&self, unit: Unit, was: &NewFormat) -> Result<NewFormat, String> {
        let before = Self::of(was, unit);
        let length = |text: &str, before: &str, was: Length| match text.trim() {
            "" => Ok(Length::ZERO),
            _ if text == before => Ok(was),
            text => parse(text, unit).map_err(|error| error.to_string()),
        };
        let both = |texts: &[String; 2], before: &[String; 2], was: Size, what: &str| {
            let width = length(&texts[0], &before[0], was.width)?;
            let height = length(&texts[1], &before[1], was.height)?;
            if (width == Length::ZERO) == (height == Length::ZERO) {
                return Ok(Size::new(width, height));
            }
            Err(format!("Type both width and height of the {what}, or neither."))
        };
        let image = both(&self.image, &before.image, was.image(), "image")?;
        let sheet = both(&self.sheet, &before.sheet, was.sheet(), "sheet")?;
        Ok(NewFormat::new(self.name.trim(), image, sheet))
    }
}

/// A size in a few words.
pub(in super::super) fn words(format: &NewFormat, unit: Unit) -> String {
    let size = |size: Size| size.sides_text(|side| wording::near(side, unit));
    let name = Some(format.name.clone()).filter(|name| !name.is_empty());
    let parts = name.into_iter().chain(record::size_in_words(format, size));
    parts.collect::<Vec<_>>().join(", ")
}

/// A size picked among those of a work, or none; gives what is chosen from now on.
pub(in super::super) fn pick_size(
    ui: &mut Ui,
    formats: &[Format],
    chosen: Option<FormatId>,
    unit: Unit,
    width: f32,
) -> Option<FormatId> {
    let none = ("not noted".to_owned(), None);
    let each = formats.iter().map(|one| (words(&one.what, unit), Some(one.id)));
    let all: Vec<_> = std::iter::once(none).chain(each).collect();
    let shown = all.iter().find(|(_, id)| *id == chosen).map(|(words, _)| words.clone());
    widgets::pick(ui, "Size", &shown.unwrap_or_default(), width, all).unwrap_or(chosen)
}

/// Another size of a work.
#[derive(Clone, PartialEq, Debug)]
pub(in super::super) struct Another {
    work: Work,
    size: SizeFields,
    /// The one edition that counts all sizes, where there is one.
    counted: Option<NewEdition>,
    /// Whether this size is to have an edition of its own, where that can be chosen.
    alone: bool,
    /// Whether there is no edition yet.
    first: bool,
    edition: EditionFields,
    prices: PriceFields,
    out: OutFields,
}

impl Another {
    /// `plan` is the size of the open plan, where that is a new one.
    pub(in super::super) fn of(
        work: &Work,
        editions: &[Numbered],
        plan: Option<&NewFormat>,
        unit: Unit,
    ) -> Self {
        let mut across = editions.iter().map(Numbered::edition);
        let counted = across.find(|one| one.what.format.is_none()).map(|one| one.what.clone());
        Self {
            work: work.clone(),
            size: plan.map(|plan| SizeFields::of(plan, unit)).unwrap_or_default(),
            alone: counted.is_none(),
            counted,
            first: editions.is_empty(),
            edition: EditionFields::default(),
            prices: PriceFields::default(),
            out: OutFields::default(),
        }
    }

    pub(super) fn settle(&mut self) {
        self.prices.settle();
    }

    pub(super) fn heading(&self) -> String {
        let what = if self.first { "An edition" } else { "Another size" };
        format!("{what} of {}, {}", self.work.catalogue, self.work.what.title)
    }

    pub(super) fn show(&mut self, ui: &mut Ui, cost: &str) {
        self.size.show(ui, 1);
        ui.add_space(8.0);
        if let Some(counted) = &self.counted {
            let words = format!(
                "Its prints count in the one edition of {} across all sizes: that is what the \
                 first buyers were promised.",
                counted.size
            );
            widgets::note(ui, &words);
            widgets::note(ui, STAYS);
            return;
        }
        if self.first {
            widgets::row(ui, "counts", |ui| {
                let options = [(false, "all sizes together"), (true, "this size alone")];
                let picked = widgets::choice(ui, "Counts", Some(self.alone), &options, WIDE);
                self.alone = picked.unwrap_or(self.alone);
            });
        } else {
            let words = "Each size of this work has an edition of its own.";
            widgets::note(ui, words);
        }
        self.edition.show(ui, false);
        self.prices.show(ui, cost);
        self.out.show(ui);
        widgets::note(ui, STAYS);
    }

    pub(super) fn read(&self, unit: Unit) -> Result<Change, String> {
        let format = self.size.read(unit, &NewFormat::default())?;
        let (edition, prices, out) = if self.counted.is_some() {
            (None, Vec::new(), None)
        } else {
            let edition = self.edition.read(&NewEdition::default())?;
            (Some(edition), self.prices.read()?, self.out.read()?)
        };
        if self.alone && format == NewFormat::default() {
            return Err(
                "The size is missing: type that of the image or the sheet, or a name for it."
                    .to_owned(),
            );
        }
        let (id, catalogue) = (self.work.id, self.work.catalogue.clone());
        let (work, alone) = (WorkRef::Existing(id), self.alone);
        let beginning = Registering { work, format, alone, edition, prices, out };
        Ok(Box::new(move |record| {
            let (_, new) = record::register(record, beginning, &note(""))?;
            Ok(Outcome {
                said: format!("{catalogue} has another size."),
                look: Some(id),
                edition: new,
                ..Outcome::default()
            })
        }))
    }
}
