//! The board: outer size and placement, or borders.

use egui::Ui;
use sightedge_core::command::{Command, exchange_board_by};
use sightedge_core::geometry::{Rect, Sides, Size};
use sightedge_core::layout::Figures;
use sightedge_core::length::Length;
use sightedge_core::spec::{BoardBy, Placement, Weight};

use crate::window::context::{Requests, View};
use crate::window::widgets::{LengthField, choice, entry, field_width, heading, note, row};

pub(super) fn show(ui: &mut Ui, view: &View<'_>, requests: &mut Requests) {
    let given = |ui: &mut Ui, requests: &mut Requests| {
        let by_outer = matches!(view.mat.board_by, BoardBy::Outer { .. });
        let width = field_width(ui, 1);
        let options = [(true, "outer size"), (false, "borders")];
        let picked = choice(ui, "Board given by", Some(by_outer), &options, width);
        if picked.is_some()
            && let Some(command) = exchange_board_by(view.document, view.variant)
        {
            requests.run(command);
        }
    };
    heading(ui, "The board", |ui| given(ui, requests));
    match view.mat.board_by {
        BoardBy::Outer { size, placement } => outer(ui, view, size, placement, requests),
        BoardBy::Borders(borders) => {
            requests.sides(ui, "Border", borders, view, true, |side, length| {
                let borders = BoardBy::Borders(borders.with(side, length));
                Command::SetBoardBy(view.variant, borders)
            });
        }
    }
}

fn outer(
    ui: &mut Ui,
    view: &View<'_>,
    size: Size,
    placement: Placement,
    requests: &mut Requests,
) {
    let fix =
        |size, placement| Command::SetBoardBy(view.variant, BoardBy::Outer { size, placement });
    row(ui, "size", |ui| {
        let width = field_width(ui, 1);
        let known = view.tables.outer.iter();
        let name = known
            .filter(|row| row.size == size || row.size == size.turned())
            .map(|row| row.name.as_str())
            .next();
        egui::ComboBox::from_id_salt("outer")
            .width(width)
            .selected_text(name.map_or("Own size".to_owned(), |name| {
                let lying = size.width > size.height;
                sightedge_service::wording::sides(name, lying)
            }))
            .show_ui(ui, |ui| {
                for known in view.tables.outer.iter().filter(|row| row.unit == view.unit()) {
                    let lying = size.width > size.height;
                    let wanted = if lying { known.size.turned() } else { known.size };
                    let name = sightedge_service::wording::sides(&known.name, lying);
                    if entry(ui, wanted == size, &name) {
                        requests.run(fix(wanted, placement));
                    }
                }
            })
            .response
            .widget_info(|| {
                egui::WidgetInfo::labeled(egui::Role::ComboBox, true, "Standard outer size")
            });
    });
    row(ui, "outer", |ui| requests.size(ui, "Outer", size, view, |size| fix(size, placement)));
    row(ui, "placement", |ui| {
        let width = field_width(ui, 1);
        egui::ComboBox::from_id_salt("placement")
            .width(width)
            .selected_text(name(placement))
            .show_ui(ui, |ui| {
                for wanted in offered(view, placement) {
                    let same = name(wanted) == name(placement);
                    if entry(ui, same, name(wanted)) {
                        requests.run(fix(size, wanted));
                    }
                }
            })
            .response
            .widget_info(|| {
                egui::WidgetInfo::labeled(egui::Role::ComboBox, true, "Placement of the window")
            });
    });
    match placement {
        // A row of its own here, too, so that nothing below jumps when a hand moves the window.
        Placement::Centred | Placement::Optical => row(ui, "top, bottom", |ui| {
            // The top layer's, as where borders are given.
            let borders = |figures: &Figures| {
                let top = figures.openings.first().and_then(|window| window.top());
                top.map(|cut| cut.borders).unwrap_or_default()
            };
            let layout = &view.derived.layout;
            let (cut, exact) = (borders(&layout.bench), borders(&layout.exact));
            let width = field_width(ui, 2);
            for (name, length, exact) in
                [("Top", cut.top, exact.top), ("Bottom", cut.bottom, exact.bottom)]
            {
                let title = format!("{name} border as placed");
                let field = LengthField::new(&title, length, view.unit()).width(width);
                let (response, _) = field.enabled(false).show(ui);
                if length != exact {
                    let exact = sightedge_service::wording::length(exact, view.unit());
                    response.on_hover_text(format!("On your ruler; exactly {exact}"));
                }
            }
        }),
        Placement::BottomExtra(extra) => row(ui, "wider by", |ui| {
            let width = field_width(ui, 1);
            let field = LengthField::new("Bottom wider by", extra, view.unit()).width(width);
            requests.length(ui, field, |extra| fix(size, Placement::BottomExtra(extra)));
        }),
        Placement::BottomRatio(weight) => row(ui, "bottom : top", |ui| {
            ratio(ui, weight, |weight| requests.run(fix(size, Placement::BottomRatio(weight))));
        }),
        Placement::Free { left, top } => row(ui, "left, top", |ui| {
            let width = field_width(ui, 2);
            // The plan has the place of the innermost window; a border is the top mat's.
            let window = view.window;
            let inside = window.top().map(|cut| window.borders.minus(cut.borders));
            let Sides { left: right_of, top: below, .. } = inside.unwrap_or_default();
            let free = view.mat.cut_board().is_none();
            let field = LengthField::new("Left border", left - right_of, view.unit());
            requests.length(ui, field.width(width).enabled(free), |left| {
                fix(size, Placement::Free { left: left + right_of, top })
            });
            let field = LengthField::new("Top border", top - below, view.unit());
            requests.length(ui, field.width(width).enabled(free), |top| {
                fix(size, Placement::Free { left, top: top + below })
            });
        }),
    }
    if view.mat.cut_board().is_some() {
        note(ui, "Its mat is cut: the borders are as measured.");
    }
}

fn name(placement: Placement) -> &'static str {
    match placement {
        Placement::Centred => "centred",
        Placement::BottomExtra(_) => "bottom wider by a length",
        Placement::BottomRatio(_) => "bottom to top in a ratio",
        Placement::Optical => "at the optical centre",
        Placement::Free { .. } => "placed by hand",
    }
}

/// What can be chosen; each starts from where the window is now, or from what is usual.
fn offered(view: &View<'_>, now: Placement) -> [Placement; 5] {
    let exact = &view.derived.layout.exact;
    let borders = exact.group().within(Rect::at_origin(exact.outer));
    let usual = match view.unit() {
        sightedge_core::length::Unit::Inch => Length::inches(0, 1, 2),
        sightedge_core::length::Unit::Millimetre => Length::mm(10),
    };
    let extra = if matches!(now, Placement::Free { .. } | Placement::Optical)
        && borders.bottom > borders.top
    {
        borders.bottom - borders.top
    } else {
        usual
    };
    [
        Placement::Centred,
        Placement::BottomExtra(extra),
        Placement::BottomRatio(Weight { bottom: 6, top: 5 }),
        Placement::Optical,
        Placement::Free { left: borders.left, top: borders.top },
    ]
}

fn ratio(ui: &mut Ui, weight: Weight, mut set: impl FnMut(Weight)) {
    let width = field_width(ui, 2);
    let Weight { bottom, top } = weight;
    let (mut b, mut t) = (bottom, top);
    for (value, name) in [(&mut b, "Bottom's part"), (&mut t, "Top's part")] {
        let field =
            egui::DragValue::new(value).range(1..=9999).speed(0.1).update_while_editing(false);
        ui.add_sized(egui::vec2(width, crate::window::theme::ROW), field)
            .widget_info(|| egui::WidgetInfo::labeled(egui::Role::SpinButton, true, name));
    }
    if (b, t) != (bottom, top) {
        set(Weight { bottom: b, top: t });
    }
}
