//! The unit and the ruler, and the exhibition rule.

use egui::Ui;
use sightedge_core::command::Command;
use sightedge_core::length::Unit;
use sightedge_core::spec::Ruler;
use sightedge_core::weight::Weights;

use crate::window::context::{Requests, View};
use crate::window::widgets::{choice, entry, field_width, heading, row};
use sightedge_service::wording::set;

pub(super) fn show(ui: &mut Ui, view: &View<'_>, requests: &mut Requests) {
    heading(ui, "Measures", |ui| {
        let width = (field_width(ui, 3) - 6.0).max(64.0);
        let options = [(Unit::Inch, "in"), (Unit::Millimetre, "mm")];
        if let Some(unit) = choice(ui, "Unit", Some(view.unit()), &options, width) {
            requests.run(Command::SetUnit(unit));
        }
        let ruler = view.document.ruler;
        egui::ComboBox::from_id_salt("ruler")
            .width(width)
            .selected_text(set(&ruler.name()))
            .show_ui(ui, |ui| {
                for other in Ruler::all(ruler.unit()) {
                    let same = other == ruler;
                    if entry(ui, same, &set(&other.name())) {
                        requests.run(Command::SetRuler(other));
                    }
                }
            })
            .response
            .on_hover_text("The marks of the ruler you cut by")
            .widget_info(|| egui::WidgetInfo::labeled(egui::Role::ComboBox, true, "Ruler"));
        let mut on = view.mat.exhibition;
        let hint = match view.unit() {
            Unit::Inch => {
                "Holds the borders to the rule of college exhibition handouts: 2 in at the sides \
                 and the top, 3 in at the bottom of boards above 11 × 14 in"
            }
            Unit::Millimetre => {
                "Holds the borders to the rule of college exhibition handouts: 50 mm at the \
                 sides and the top, 75 mm at the bottom of boards above 280 × 356 mm"
            }
        };
        if ui.checkbox(&mut on, "Exhibition").on_hover_text(hint).changed() {
            requests.run(Command::SetExhibition(view.variant, on));
        }
    });
    row(ui, "weights", |ui| {
        let width = field_width(ui, 1);
        let options = [(Weights::Pounds, "ounces, pounds"), (Weights::Grams, "grams, newtons")];
        if let Some(weights) = choice(ui, "Weights", Some(view.weights()), &options, width) {
            // What goes with the unit goes on following it.
            let own = weights != Weights::of(view.unit());
            requests.run(Command::SetWeights(own.then_some(weights)));
        }
    });
}
