//! The edition size, the proofs, and what they cost.

use egui::Ui;
use sightedge_studio::{NewEdition, Price, Tier};

use super::fields::{WIDE, field, figure, figure_or_none, line, part};
use crate::window::widgets;
use sightedge_service::record;

/// The counts of an edition.
#[derive(Clone, PartialEq, Debug)]
pub(super) struct EditionFields {
    size: String,
    proofs: String,
    /// Printer's proofs, hors commerce, trial proofs.
    others: [String; 3],
    fraction: bool,
}

impl Default for EditionFields {
    fn default() -> Self {
        Self {
            size: String::new(),
            proofs: sightedge_studio::PROOF_SHARE.to_string(),
            others: [const { String::new() }; 3],
            fraction: false,
        }
    }
}

impl EditionFields {
    pub(super) fn of(edition: &NewEdition) -> Self {
        let count = |count: u32| if count == 0 { String::new() } else { count.to_string() };
        Self {
            size: edition.size.to_string(),
            proofs: edition.proof_share.to_string(),
            others: [edition.printer, edition.hors_commerce, edition.trial].map(count),
            fraction: !edition.roman,
        }
    }

    /// `fixed`: the first number is issued.
    pub(super) fn show(&mut self, ui: &mut Ui, fixed: bool) {
        ui.add_enabled_ui(!fixed, |ui| {
            line(ui, "Edition of", &mut self.size, "edition size: how many numbered prints");
            line(
                ui,
                "Proofs, %",
                &mut self.proofs,
                "artist’s proofs (AP), in % of the edition",
            );
            widgets::row(ui, "PP, HC, TP", |ui| {
                let names = [
                    ("Printer's proofs", "PP: 0"),
                    ("Hors commerce", "HC: 0"),
                    ("Trial proofs", "TP: 0"),
                ];
                let each = part(ui, 3);
                for (text, (name, hint)) in self.others.iter_mut().zip(names) {
                    field(ui, name, text, hint, each);
                }
            });
        });
        widgets::row(ui, "numbered", |ui| {
            let options = [(false, "AP II/V"), (true, "AP 2/5")];
            let now = Some(self.fraction);
            let picked = widgets::choice(ui, "Proofs numbered", now, &options, WIDE);
            self.fraction = picked.unwrap_or(self.fraction);
        });
        let words = if fixed {
            "The edition size is fixed: a number is issued, and what its buyer was promised holds \
             for all."
        } else {
            "PP: printer’s proofs. HC: hors commerce, not for sale. TP: trial proofs. The edition \
             size is fixed once the first number is issued."
        };
        widgets::note(ui, words);
    }

    /// What is typed of the edition; what is not in these fields is that of `rest`.
    pub(super) fn read(&self, rest: &NewEdition) -> Result<NewEdition, String> {
        let size = figure(&self.size, "number of prints", "25")?;
        let share = figure(&self.proofs, "share of proofs in percent", "10")?;
        let count = |text: &str| figure_or_none(text, "number of proofs", "2");
        let [printer, hors_commerce, trial] = &self.others;
        let same = (size, share) == (rest.size, rest.proof_share);
        Ok(NewEdition {
            name: rest.name.clone(),
            format: rest.format,
            printer: count(printer)?,
            hors_commerce: count(hors_commerce)?,
            trial: count(trial)?,
            roman: !self.fraction,
            // As many as there were, unless what they follow from is another.
            artist: if same { rest.artist } else { NewEdition::of(size, share).artist },
            size,
            proof_share: share,
        })
    }
}

/// What prints cost, from a number on each.
#[derive(Clone, PartialEq, Debug)]
pub(super) struct PriceFields {
    /// From which number, and how much; the last one is empty.
    rows: Vec<[String; 2]>,
}

impl Default for PriceFields {
    fn default() -> Self {
        Self { rows: vec![["1".to_owned(), String::new()]] }
    }
}

impl PriceFields {
    pub(super) fn of(tiers: &[Tier]) -> Self {
        let row = |tier: &Tier| [tier.from.to_string(), tier.price.to_string()];
        let mut rows: Vec<_> = tiers.iter().map(row).collect();
        if tiers.first().is_none_or(|tier| tier.from != 1) {
            rows.insert(0, ["1".to_owned(), String::new()]);
        }
        Self { rows }
    }

    /// There is always an empty row for one more price, once there is a first.
    pub(super) fn settle(&mut self) {
        let full = |row: &[String; 2]| row.iter().all(|text| !text.trim().is_empty());
        if self.rows.last().is_some_and(full) {
            self.rows.push([const { String::new() }; 2]);
        }
    }

    pub(super) fn show(&mut self, ui: &mut Ui, cost: &str) {
        self.settle();
        for (at, [from, price]) in self.rows.iter_mut().enumerate() {
            if at == 0 {
                line(ui, "Price", price, &format!("{cost}; may be empty"));
                continue;
            }
            widgets::row(ui, "from no.", |ui| {
                let number = 72.0;
                let rest = WIDE - number - ui.spacing().item_spacing.x;
                field(ui, &format!("Price {} from number", at + 1), from, "21", number);
                let name = format!("Price {}", at + 1);
                field(ui, &name, price, "another price from there on", rest);
            });
        }
    }

    /// From which number on, and how much.
    pub(super) fn read(&self) -> Result<Vec<(u32, Price)>, String> {
        let mut all = Vec::new();
        for (at, [from, price]) in self.rows.iter().enumerate() {
            let (from, price) = (from.trim(), price.trim());
            match (from, price) {
                (_, "") if at == 0 || from.is_empty() => continue,
                ("", price) => return Err(format!("From which number on is it {price}?")),
                (from, "") => {
                    return Err(format!("What does a print cost from number {from} on?"));
                }
                _ => {}
            }
            all.push((figure(from, "number of the edition", "11")?, Price::read(price)?));
        }
        Ok(all)
    }
}

/// Numbers that were issued before the record began.
#[derive(Clone, PartialEq, Debug, Default)]
pub(super) struct OutFields {
    out: String,
    sold: String,
}

impl OutFields {
    pub(super) fn show(&mut self, ui: &mut Ui) {
        line(
            ui,
            "Issued before",
            &mut self.out,
            "0, or the last number issued before this record",
        );
        if !self.out.trim().is_empty() && self.out.trim() != "0" {
            line(ui, "Sold of these", &mut self.sold, "numbers known to be sold: 3, 7, 10-20");
            let words = "The others are at an unknown place until you enter where: they count \
                         neither as sold nor as in the studio.";
            widgets::note(ui, words);
        }
    }

    /// The first and the last that were issued, and those known to be sold.
    pub(super) fn read(&self) -> Result<Option<(u32, u32, Vec<u32>)>, String> {
        let out = figure_or_none(&self.out, "number", "47")?;
        if out == 0 {
            return Ok(None);
        }
        Ok(Some((1, out, record::numbers(&self.sold)?)))
    }
}
