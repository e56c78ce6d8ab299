//! What would fail: a conversation. What is wrong, by how much, why it matters, what mends it.

use egui::{RichText, ScrollArea, Ui};

use sightedge_core::finding::{Finding, Severity};
use sightedge_core::geometry::{Seen, Side};
use sightedge_core::rules::print_size;

use crate::window::context::{Requests, View};
use crate::window::help;
use crate::window::request::Action;
use crate::window::theme;
use crate::window::widgets::{quiet, severity_icon};
use sightedge_service::wording;

/// Shows the checks; gives the height they need.
pub(crate) fn checks(ui: &mut Ui, view: &View<'_>, requests: &mut Requests) -> f32 {
    let top = ui.cursor().top();
    ui.label(RichText::new("Checks").family(theme::strong()).size(theme::HEADING));
    let findings = &view.derived.findings;
    // A note of the picture's own file, so it comes last.
    let stated = view
        .stated
        .and_then(|stated| print_size(view.document, view.work, view.window, stated));
    // The record's word on the print comes before what the plan itself brings.
    let all: Vec<&Finding> = view.at_bench.into_iter().chain(findings).chain(&stated).collect();
    if all.is_empty() {
        ui.horizontal_wrapped(|ui| {
            ui.label(quiet(ui, "✓  No faults found."));
        });
        return ui.cursor().top() - top;
    }
    let head = ui.cursor().top() - top;
    let area = ScrollArea::vertical().id_salt("checks").auto_shrink([false, true]);
    let shown = area.show(ui, |ui| {
        ui.set_width(ui.available_width() - 8.0);
        self::findings(ui, view, &all, requests);
        ui.scope(|ui| {
            ui.spacing_mut().interact_size.y = 20.0;
            ui.spacing_mut().item_spacing.y = 0.0;
            help::severities(ui);
        });
    });
    head + shown.content_size.y
}

/// The gravest of the findings.
pub(crate) fn gravest(view: &View<'_>) -> Option<Severity> {
    let own = view.derived.findings.iter().chain(view.at_bench).map(|finding| finding.severity);
    let grave = |severity: &Severity| match severity {
        Severity::Fault => 2,
        Severity::Caution => 1,
        Severity::Note => 0,
    };
    own.max_by_key(grave)
}

/// Shows some of them.
pub(crate) fn findings(
    ui: &mut Ui,
    view: &View<'_>,
    some: &[&Finding],
    requests: &mut Requests,
) {
    let turns = |finding: &&Finding| {
        finding.place.side.is_some_and(|side| matches!(side, Side::Left | Side::Right))
    };
    if some.iter().any(turns) {
        let words = format!("Left and right are seen {}.", Seen::Front.words());
        ui.label(quiet(ui, &words));
    }
    for (number, finding) in some.iter().enumerate() {
        ui.push_id(number, |ui| one(ui, view, finding, requests));
    }
}

/// Shows one finding with its way out.
pub(crate) fn one(ui: &mut Ui, view: &View<'_>, finding: &Finding, requests: &mut Requests) {
    let [found, needed] = finding.amounts(view.unit(), view.weights());
    let source = format!(
        "Found {}, needed {}. Source of the figure: {}.",
        wording::set(&found),
        wording::set(&needed),
        finding.source
    );
    let mut focused = false;
    let shown = ui.scope(|ui| {
        ui.horizontal_top(|ui| {
            severity_icon(ui, finding.severity);
            ui.vertical(|ui| {
                let head = match finding.place.side {
                    Some(side) => format!("{}, {}", finding.severity.name(), side.name()),
                    None => finding.severity.name().to_owned(),
                };
                ui.label(quiet(ui, &head));
                let message = wording::sentence(&finding.message);
                // A click or the Tab key brings the place and the source, as the pointer does.
                let words = egui::Label::new(&message).wrap().sense(egui::Sense::click());
                let words = ui.add(words);
                let text = format!("{head}: {message}");
                words
                    .widget_info(|| egui::WidgetInfo::labeled(egui::Role::Button, true, &text));
                if words.clicked() {
                    words.request_focus();
                }
                focused = words.has_focus();
                if let Some(remedy) = &finding.remedy {
                    let button = ui.button(wording::sentence(&remedy.words));
                    focused |= button.has_focus();
                    if button.clicked() {
                        requests.actions.push(Action::Run(remedy.command.clone()));
                    }
                }
                if focused {
                    ui.label(quiet(ui, &source));
                }
            });
        });
    });
    ui.add_space(theme::GAP * 2.0);
    let response = if focused { shown.response } else { shown.response.on_hover_text(&source) };
    if focused || response.contains_pointer() {
        requests.actions.push(Action::Point(finding.place));
    }
}
