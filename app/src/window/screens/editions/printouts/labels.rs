//! How labels lie on their sheet.

use egui::Ui;
use sightedge_core::length::{Unit, parse};

use super::Printouts;
use crate::window::widgets;
use sightedge_service::record::printouts::Measure;
use sightedge_service::wording;

impl Printouts {
    /// The fields for it.
    pub(super) fn grid(&mut self, ui: &mut Ui, unit: Unit) {
        widgets::group(ui, "Labels", |ui| {
            widgets::row(ui, "print", |ui| {
                let options = [(false, "on sheets of labels"), (true, "each on its own")];
                let width = widgets::field_width(ui, 1);
                let now = self.labels.single;
                let picked = widgets::choice(ui, "Labels printed", Some(now), &options, width);
                self.labels.single = picked.unwrap_or(now);
            });
            self.pair(
                ui,
                unit,
                "size, W × H",
                [("Label width", Measure::Width), ("Label height", Measure::Height)],
            );
            if self.labels.single {
                return;
            }
            widgets::row(ui, "across, down", |ui| {
                let width = widgets::field_width(ui, 2);
                for (name, rows) in [("Labels across", false), ("Labels down", true)] {
                    let now = if rows { self.labels.rows } else { self.labels.columns };
                    let Some(typed) = widgets::text(ui, name, &now.to_string(), "", width)
                    else {
                        continue;
                    };
                    match typed.trim().parse::<u32>().ok().filter(|count| *count > 0) {
                        Some(count) if rows => self.labels.rows = count,
                        Some(count) => self.labels.columns = count,
                        None => {
                            self.wrong = Some(format!(
                                "{name}: \"{}\" is not a number of labels: give 1 or more.",
                                typed.trim()
                            ));
                            continue;
                        }
                    }
                    self.wrong = None;
                }
            });
            let first = [("Left margin", Measure::Left), ("Top margin", Measure::Top)];
            self.pair(ui, unit, "margins", first);
            let gaps = [("Gap across", Measure::Across), ("Gap down", Measure::Down)];
            self.pair(ui, unit, "gaps", gaps);
        });
    }

    fn pair(&mut self, ui: &mut Ui, unit: Unit, label: &str, of: [(&str, Measure); 2]) {
        widgets::row(ui, label, |ui| {
            let width = widgets::field_width(ui, 2);
            for (name, measure) in of {
                let length = self.labels.get(measure);
                let shown = match length.units() {
                    0 => "0".to_owned(),
                    _ => wording::set(&length.near(unit)),
                };
                let Some(typed) = widgets::text(ui, name, &shown, "", width) else { continue };
                match parse(&typed, unit) {
                    Ok(length) => {
                        self.labels.set(measure, length);
                        self.wrong = None;
                    }
                    Err(error) => self.wrong = Some(format!("{name}: {error}.")),
                }
            }
        });
    }
}
