//! The cuts of the sheet in front, in their order.

use egui::{Align2, FontId, ScrollArea, Sense, Stroke, Ui, vec2};
use sightedge_core::length::Unit;
use sightedge_cutting::{Instruction, Sequence};

use crate::window::theme;
use crate::window::widgets::{fitted, quiet};
use sightedge_service::cutting::instructions::BLADES;
use sightedge_service::cutting::model::BoardPlan;
use sightedge_service::wording;

/// The cuts of one sheet, each on its piece: which edge of it lies against the stop, where the
/// stop is set and what falls. Returns the one that is shown on the drawing.
pub(super) fn cuts(
    ui: &mut Ui,
    board: &BoardPlan,
    sequence: &Sequence,
    front: usize,
    unit: Unit,
) -> usize {
    let teller = board.teller(unit, wording::set);
    ui.spacing_mut().item_spacing.y = 2.0;
    if let Some(words) = teller.first(sequence) {
        ui.add(egui::Label::new(quiet(ui, &words)).wrap());
    }
    let mut picked = front;
    let height = ui.available_height() - 56.0;
    ScrollArea::vertical().id_salt("cuts").max_height(height.max(60.0)).show(ui, |ui| {
        for number in 0..sequence.cuts.len() {
            let Some(told) = teller.cut(sequence, number) else { continue };
            ui.push_id(number, |ui| {
                if cut(ui, number + 1, &told, number == front) {
                    picked = number;
                }
            });
        }
    });
    ui.add(egui::Label::new(quiet(ui, BLADES)).wrap());
    picked
}

/// One cut; whether it was pressed.
fn cut(ui: &mut Ui, number: usize, told: &Instruction, front: bool) -> bool {
    const NUMBER: f32 = 24.0;
    let palette = theme::palette(ui);
    let line = format!("Cut {number}: {}", told.line());
    // What fits is measured in the larger type.
    let room = (ui.available_width() - NUMBER - 12.0) * theme::BODY / theme::SMALL;
    let text = |ui: &Ui, words: &str| fitted(ui, words, room);
    let mut rows = vec![told.piece.clone(), format!("{}, stop {}", told.edge, told.stop)];
    rows.extend(told.falls.iter().map(|fell| format!("→ {fell}")));
    let pitch = theme::SMALL + 5.0;
    let high = pitch * rows.iter().map(|_| 1.0_f32).sum::<f32>() + 8.0;
    let size = vec2(ui.available_width() - 8.0, high);
    let (rect, response) = ui.allocate_exact_size(size, Sense::click());
    let response = response.on_hover_text(&line);
    response.widget_info(|| {
        egui::WidgetInfo::selected(egui::Role::RadioButton, true, front, &line)
    });
    if front || response.hovered() || response.has_focus() {
        let ground = if front { palette.field } else { palette.hover };
        ui.painter().rect_filled(rect, 4.0, ground);
    }
    if response.has_focus() {
        let line = Stroke::new(1.0, palette.accent);
        ui.painter().rect_stroke(rect, 4.0, line, egui::StrokeKind::Inside);
    }
    let at = rect.min + vec2(4.0, 4.0);
    let strong = FontId::new(theme::SMALL, theme::strong());
    ui.painter().text(
        at,
        Align2::LEFT_TOP,
        number.to_string(),
        strong.clone(),
        if front { palette.accent } else { palette.text },
    );
    for (row, words) in rows.iter().enumerate() {
        // What goes into the cutter is read first: the piece, its edge and the stop.
        let (face, ink) = match row {
            0 => (FontId::proportional(theme::SMALL), palette.text),
            1 => (strong.clone(), palette.text),
            _ => (FontId::proportional(theme::SMALL), palette.quiet),
        };
        let down = pitch * f32::from(u8::try_from(row).unwrap_or(u8::MAX));
        let at = at + vec2(NUMBER, down);
        ui.painter().text(at, Align2::LEFT_TOP, text(ui, words), face, ink);
    }
    response.clicked()
}
