//! What the marks of the checks and the abbreviations of the editions mean, where they stand.

use egui::Ui;
use sightedge_core::finding::Severity;
use sightedge_core::glossary;

use crate::window::theme;
use crate::window::widgets::{quiet, severity_icon};

/// The abbreviations on prints and in lists.
const ABBREVIATIONS: [&str; 5] = ["AP", "PP", "HC", "BAT", "TP"];

/// What each mark of a check means: beside each other as far as there is room.
pub fn severities(ui: &mut Ui) {
    const BETWEEN: f32 = 12.0;
    let marks = [Severity::Fault, Severity::Caution, Severity::Note].map(|severity| {
        (severity, format!("{}: {}", severity.name(), glossary::severity(severity)))
    });
    let wide = |words: &str| {
        let font = egui::FontId::proportional(theme::SMALL);
        let ink = egui::Color32::PLACEHOLDER;
        let text = ui.painter().layout_no_wrap(words.to_owned(), font, ink).size().x;
        text + 22.0 + BETWEEN
    };
    let mut rows: Vec<Vec<(Severity, String)>> = Vec::new();
    let mut left = 0.0;
    for (severity, words) in marks {
        let needs = wide(&words);
        match rows.last_mut() {
            Some(row) if needs <= left => row.push((severity, words)),
            _ => {
                left = ui.available_width() + BETWEEN;
                rows.push(vec![(severity, words)]);
            }
        }
        left -= needs;
    }
    for row in rows {
        ui.horizontal(|ui| {
            ui.spacing_mut().item_spacing.x = 4.0;
            for (severity, words) in row {
                severity_icon(ui, severity);
                ui.label(quiet(ui, &words));
                ui.add_space(BETWEEN - 4.0);
            }
        });
    }
}

/// What the abbreviations mean, a line each.
pub fn abbreviations(ui: &mut Ui) {
    for short in ABBREVIATIONS {
        let means = glossary::meaning(short).unwrap_or_default();
        ui.label(quiet(ui, &format!("{short}: {means}")));
    }
}
