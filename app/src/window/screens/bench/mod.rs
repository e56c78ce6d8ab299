//! At the bench: one step at a time, in figures that are read at arm's length. One key ticks
//! a step; what was cut otherwise than planned is entered as it was measured.

mod as_cut;

use egui::{
    Align2, CentralPanel, FontId, Frame, Key, Label, Margin, Panel, RichText, Role, ScrollArea,
    Sense, Ui, WidgetInfo, vec2,
};
use sightedge_core::finding::{Finding, Severity};
use sightedge_core::spec::Document;
use sightedge_core::steps::{Step, steps, to_read_first};

use crate::window::context::{Requests, ScreenContext, View};
use crate::window::request::Action;
use crate::window::screens::shared::print_choice;
use crate::window::theme;
use crate::window::widgets::quiet;
use as_cut::Entry;
use sightedge_service::record::printouts::Whole;
use sightedge_service::wording;

/// The title of a step and what is done in it, in points: read at an arm's length and a half,
/// where 14 points are read on the desk. Our own choice.
const TITLE: f32 = 34.0;
const TEXT: f32 = 26.0;
const CAUTION: f32 = 19.0;
/// The room in which these sizes fit, and how much larger they become where there is more.
const WIDE: f32 = 900.0;
const MOST_LARGER: f32 = 1.8;

/// What the place keeps of its own.
#[derive(Debug, Default)]
pub(super) struct BenchScreen {
    /// The step in front, by its id; none: the first that is not done.
    at: Option<String>,
    /// What was measured, while it is entered.
    entry: Option<Entry>,
    /// What came after the step in front when that was: a mat that is cut has no step any more.
    after: Option<String>,
}

/// What was pressed that another place carries out.
pub(super) enum Event {
    /// To change the steps themselves.
    Steps,
    /// To note in the record that a print is matted.
    Matted(Box<Whole>),
    /// The printouts that go with a print.
    Printouts(Box<Whole>),
}

impl BenchScreen {
    /// Shows the place; gives what another place is to carry out.
    pub(super) fn show(
        &mut self,
        ui: &mut Ui,
        cx: ScreenContext<'_>,
        requests: &mut Requests,
    ) -> Option<Event> {
        let session = cx.session()?;
        let view = View::of_chosen(session)?;
        let variant = session.chosen()?;
        // A new print that replaced the plan's own has no ticks yet.
        let followed = cx.prints.and_then(|prints| prints.followed(view.document));
        let followed =
            followed.map(|own| Document { inscribed: Some(own), ..view.document.clone() });
        let document = followed.as_ref().unwrap_or(view.document);
        let steps = steps(document, variant, view.derived, view.tables);
        let undone = || steps.iter().position(|step| !step.done);
        let place = |id: &str| steps.iter().position(|step| step.id == id);
        let index = self.at.as_deref().and_then(place);
        let index = index
            .or_else(|| self.after.as_deref().and_then(place))
            .or_else(undone)
            .unwrap_or(steps.len().saturating_sub(1));
        let palette = theme::palette(ui);
        let margin = Margin { left: 12, right: 8, top: 10, bottom: 8 };
        let frame = Frame::new().fill(palette.panel).inner_margin(margin);
        let event = Panel::left("bench steps")
            .frame(frame)
            .resizable(false)
            .exact_size(276.0)
            .show(ui, |ui| {
                let event = Panel::bottom("bench template")
                    .frame(Frame::new())
                    .show_separator_line(false)
                    .show(ui, |ui| {
                        ui.add_space(6.0);
                        let matted = print_choice::matted(ui, document, cx, &steps);
                        let printouts = print_choice::printouts(ui, document, cx);
                        let button = ui.button("Change wording or order…");
                        let hint = "Your own steps, for every plan: their words, their order, \
                                    which are left out";
                        let change = button.on_hover_text(hint).clicked();
                        let printouts =
                            printouts.map(|whole| Event::Printouts(Box::new(whole)));
                        let matted = matted.map(|whole| Event::Matted(Box::new(whole)));
                        matted.or(printouts).or(change.then_some(Event::Steps))
                    });
                self.list(ui, &steps, index, |ui| {
                    // The key that ticks is the step's again, not the list's.
                    if print_choice::chooser(ui, &view, cx, requests) {
                        ui.memory_mut(|memory| {
                            if let Some(id) = memory.focused() {
                                memory.surrender_focus(id);
                            }
                        });
                    }
                });
                event.inner
            })
            .inner;
        if self.entry.is_some() {
            let frame =
                Frame::new().fill(palette.panel).inner_margin(Margin::symmetric(12, 10));
            Panel::right("bench as cut").frame(frame).resizable(false).exact_size(324.0).show(
                ui,
                |ui| {
                    if self.as_cut(ui, &view, requests) {
                        let id = |at: usize| steps.get(at).map(|step| step.id.clone());
                        (self.at, self.after) = (id(index), id(index + 1));
                    }
                },
            );
        }
        let frame = Frame::new().fill(palette.field).inner_margin(Margin::same(36));
        CentralPanel::default().frame(frame).show(ui, |ui| {
            let Some(step) = steps.get(index) else {
                ui.label(RichText::new("There is nothing to do at the bench.").size(TEXT));
                return;
            };
            Panel::bottom("bench keys")
                .frame(Frame::new())
                .show_separator_line(false)
                .show(ui, |ui| self.keys(ui, &view, &steps, index, requests));
            ScrollArea::vertical().auto_shrink([false, false]).show(ui, |ui| {
                first_of_all(ui, &view.derived.findings);
                one(ui, step, steps.len());
            });
        });
        event
    }

    /// All of them, with what is done.
    fn list(&mut self, ui: &mut Ui, steps: &[Step], index: usize, head: impl FnOnce(&mut Ui)) {
        let done = steps.iter().filter(|step| step.done).count();
        ui.label(RichText::new("At the bench").family(theme::strong()).size(theme::HEADING));
        ui.label(quiet(ui, &format!("{done} of {} done", steps.len())));
        ui.add_space(6.0);
        head(ui);
        ScrollArea::vertical().auto_shrink([false, false]).show(ui, |ui| {
            ui.spacing_mut().item_spacing.y = 1.0;
            let palette = theme::palette(ui);
            for (place, step) in steps.iter().enumerate() {
                let size = vec2(ui.available_width() - 8.0, 28.0);
                let (rect, response) = ui.allocate_exact_size(size, Sense::click());
                let on = place == index;
                let fill = if on {
                    palette.hover
                } else if response.hovered() {
                    palette.field
                } else {
                    palette.panel
                };
                ui.painter().rect_filled(rect, 4.0, fill);
                if response.has_focus() {
                    let stroke = egui::Stroke::new(1.5, palette.accent);
                    let inside = egui::StrokeKind::Inside;
                    ui.painter().rect_stroke(rect, 4.0, stroke, inside);
                }
                let mark = if step.done { "✓".to_owned() } else { step.number.to_string() };
                let ink = if step.done { palette.accent } else { palette.quiet };
                let at = rect.left_center() + vec2(26.0, 0.0);
                let font = FontId::proportional(theme::BODY);
                ui.painter().text(at, Align2::RIGHT_CENTER, mark, font.clone(), ink);
                let ink = if step.done && !on { palette.quiet } else { palette.text };
                let at = rect.left_center() + vec2(36.0, 0.0);
                let family = if on { theme::strong() } else { egui::FontFamily::Proportional };
                let font = FontId::new(theme::BODY, family);
                let room = rect.width() - 40.0;
                let title = crate::window::widgets::fitted(ui, &step.title, room);
                ui.painter().text(at, Align2::LEFT_CENTER, title, font, ink);
                let state = match (step.done, step.changed.as_slice()) {
                    (true, _) => "done",
                    (false, []) => "to do",
                    (false, _) => "to do again",
                };
                let words = format!("Step {}: {}, {state}", step.number, step.title);
                response
                    .widget_info(|| WidgetInfo::selected(Role::RadioButton, true, on, &words));
                if response.clicked() {
                    self.at = Some(step.id.clone());
                }
            }
        });
    }

    /// What can be done with the step: one key ticks it.
    fn keys(
        &mut self,
        ui: &mut Ui,
        view: &View<'_>,
        steps: &[Step],
        index: usize,
        requests: &mut Requests,
    ) {
        let Some(step) = steps.get(index) else { return };
        let last = steps.len().saturating_sub(1);
        let (mut tick, mut to) = (false, None);
        ui.horizontal(|ui| {
            let words = if step.done { "Not done" } else { "Done" };
            let big = |words: &str| egui::Button::new(RichText::new(words).size(20.0));
            let button = big(words).min_size(vec2(190.0, 52.0)).shortcut_text("Space");
            let button = ui.add(button).on_hover_text("Ticks this step (Space)");
            button.widget_info(|| WidgetInfo::labeled(Role::Button, true, words));
            tick |= button.clicked();
            let small = |words: &str| big(words).min_size(vec2(64.0, 52.0));
            if ui.add_enabled(index > 0, small("Back")).on_hover_text("←").clicked() {
                to = index.checked_sub(1);
            }
            if ui.add_enabled(index < last, small("Next")).on_hover_text("→").clicked() {
                to = Some(index + 1);
            }
            let cutting =
                step.id == "cut" || step.id == "undermats" || view.derived.layout.in_hand;
            if cutting && self.entry.is_none() && ui.add(small("Cut differently…")).clicked()
            {
                // The next that is cut: the top mat is measured before its undermats are.
                let open = view.window.layers.iter().find(|cut| !cut.done);
                let undermat = view.window.layers.iter().skip(1).find(|cut| !cut.done);
                let next = if step.id == "undermats" { undermat } else { open };
                self.entry = Entry::of(view, next.map(|cut| cut.layer));
            }
        });
        // No field has the focus, and no button that the key would press.
        let free = ui.memory(|memory| memory.focused().is_none());
        if free {
            let pressed = |key| ui.input(|input| input.key_pressed(key));
            tick |= pressed(Key::Space);
            if pressed(Key::ArrowLeft) || pressed(Key::ArrowUp) {
                to = index.checked_sub(1);
            }
            if (pressed(Key::ArrowRight) || pressed(Key::ArrowDown)) && index < last {
                to = Some(index + 1);
            }
        }
        if tick {
            requests.actions.push(Action::Tick(Box::new(step.clone())));
            // On to the next that is not done; a tick taken back stays in front.
            let rest = steps.iter().enumerate().skip(index + 1);
            let next = rest.filter(|(_, step)| !step.done).map(|(place, _)| place).next();
            to = if step.done { Some(index) } else { next.or(Some(index)) };
        }
        if let Some(step) = to.and_then(|to| steps.get(to)) {
            self.at = Some(step.id.clone());
            ui.ctx().request_repaint();
        }
    }
}

/// What is read before any step is done.
fn first_of_all(ui: &mut Ui, findings: &[Finding]) {
    for finding in to_read_first(findings) {
        ui.horizontal_top(|ui| {
            crate::window::widgets::severity_icon(ui, finding.severity);
            let words = format!("{}: {}", finding.severity.name(), finding.message);
            ui.add(Label::new(RichText::new(wording::sentence(&words)).size(CAUTION)).wrap());
        });
        ui.add_space(10.0);
    }
}

/// One step, large.
fn one(ui: &mut Ui, step: &Step, count: usize) {
    let palette = theme::palette(ui);
    // A larger screen stands further away and has the room.
    let larger = (ui.available_width() / WIDE).clamp(1.0, MOST_LARGER);
    let (title_size, text_size) = (TITLE * larger, TEXT * larger);
    let small = CAUTION * larger;
    let head = format!("Step {} of {count}", step.number);
    ui.label(RichText::new(head).size(small).color(palette.quiet));
    let mark = if step.done { "✓ " } else { "" };
    let title = format!("{mark}{}", step.title);
    ui.label(RichText::new(title).family(theme::strong()).size(title_size));
    ui.add_space(14.0);
    // One thing is read at a time.
    for part in &step.parts {
        let text = RichText::new(wording::sentence(part))
            .size(text_size)
            .line_height(Some(36.0 * larger));
        ui.label(text);
        ui.add_space(8.0);
    }
    if let Some(words) = step.changed_in_words() {
        ui.add_space(6.0);
        let words = wording::sentence(&words);
        ui.add(Label::new(RichText::new(words).size(small).color(palette.quiet)).wrap());
    }
    for caution in &step.cautions {
        ui.add_space(10.0);
        ui.horizontal_top(|ui| {
            crate::window::widgets::severity_icon(ui, Severity::Caution);
            ui.vertical(|ui| ui.label(RichText::new(wording::sentence(caution)).size(small)));
        });
    }
}
