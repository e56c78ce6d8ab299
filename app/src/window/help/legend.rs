//! What the marks of the checks and the abbreviations of the editions mean, where they stand.

use egui::Ui;
use sightedge_core::finding::Severity;

use crate::window::widgets::{quiet, severity_icon};

/// The abbreviations on prints and in lists, each with what it means.
pub const ABBREVIATIONS: [(&str, &str); 5] = [
    ("AP", "artist’s proof: kept by the artist, outside the numbers"),
    ("PP", "printer’s proof: for the printer"),
    ("HC", "hors commerce: not for sale, for showing and dealing"),
    ("BAT", "bon à tirer: the approved print that all others match"),
    ("TP", "trial proof: made on the way to the final print"),
];

/// What each mark of a check means, in a line that wraps.
pub fn severities(ui: &mut Ui) {
    ui.horizontal_wrapped(|ui| {
        ui.spacing_mut().item_spacing.x = 4.0;
        for (severity, means) in [
            (Severity::Fault, "would fail"),
            (Severity::Caution, "may fail"),
            (Severity::Note, "good to know"),
        ] {
            // Mark and words stay together.
            ui.horizontal(|ui| {
                severity_icon(ui, severity);
                ui.label(quiet(ui, &format!("{}: {means}", severity.name())));
                ui.add_space(4.0);
            });
        }
    });
}

/// What the abbreviations mean, a line each.
pub fn abbreviations(ui: &mut Ui) {
    for (short, means) in ABBREVIATIONS {
        ui.label(quiet(ui, &format!("{short}: {means}")));
    }
}

/// The same as one text, for a hint.
pub fn abbreviations_hint() -> String {
    ABBREVIATIONS.map(|(short, means)| format!("{short}: {means}")).join("\n")
}
