//! The unit and the ruler, and the exhibition rule.

use egui::Ui;
use sightedge_core::command::Command;
use sightedge_core::length::Unit;
use sightedge_core::spec::Ruler;
use sightedge_core::weight::Weights;

use crate::window::context::{Requests, View};
use crate::window::widgets::{Hint, asked, choice, field_width, heading, hinted, list};
use sightedge_service::wording::set;

pub(super) fn show(ui: &mut Ui, view: &View<'_>, requests: &mut Requests) {
    heading(ui, "Measures", |ui| {
        let width = (field_width(ui, 3) - 6.0).max(64.0);
        let options = [(Unit::Inch, "in"), (Unit::Millimetre, "mm")];
        let hint = Hint::new("What lengths are shown in, and typed in where no unit is given");
        let picked =
            hinted(ui, &hint, |ui| choice(ui, "Unit", Some(view.unit()), &options, width));
        if let Some(unit) = picked {
            requests.run(Command::SetUnit(unit));
        }
        let ruler = view.document.ruler;
        let all = Ruler::all(ruler.unit());
        let all = all.map(|other| (set(&other.name()), other).into());
        let hint =
            Hint::new("The marks of the ruler you cut by: windows and borders fall on them");
        let chosen = set(&ruler.name());
        let picked = hinted(ui, &hint, |ui| list(ui, "Ruler", &chosen, width, all));
        if let Some(other) = picked {
            requests.run(Command::SetRuler(other));
        }
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
    let hint = Hint::new("What masses and forces are shown in");
    asked(ui, "weights", &hint, |ui| {
        let width = field_width(ui, 1);
        let options = [(Weights::Pounds, "ounces, pounds"), (Weights::Grams, "grams, newtons")];
        if let Some(weights) = choice(ui, "Weights", Some(view.weights()), &options, width) {
            // What goes with the unit goes on following it.
            let own = weights != Weights::of(view.unit());
            requests.run(Command::SetWeights(own.then_some(weights)));
        }
    });
}
