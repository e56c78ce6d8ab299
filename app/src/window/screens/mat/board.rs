//! The board: outer size and placement, or borders.

use egui::Ui;
use sightedge_core::command::{Command, exchange_board_by};
use sightedge_core::geometry::{Rect, Sides, Size};
use sightedge_core::layout::Figures;
use sightedge_core::length::Length;
use sightedge_core::spec::{BoardBy, Placement, Weight};

use super::print::CUSTOM;
use crate::window::context::{Requests, View};
use crate::window::widgets::{
    Hint, LengthField, Picture, SidesField, asked, choice, field_width, heading, hinted, list,
    note, with_row_hint,
};

pub(super) fn show(ui: &mut Ui, view: &View<'_>, requests: &mut Requests) {
    let hint = Hint::new(
        "Outer size: the board is so large, and the borders follow. Borders: these are given, and \
         the board’s size follows.",
    );
    heading(ui, "The board", |ui| {
        let by_outer = matches!(view.mat.board_by, BoardBy::Outer { .. });
        let width = field_width(ui, 1);
        let options = [(true, "outer size"), (false, "borders")];
        let picked = hinted(ui, &hint, |ui| {
            choice(ui, "Board given by", Some(by_outer), &options, width)
        });
        if picked.is_some()
            && let Some(command) = exchange_board_by(view.document, view.variant)
        {
            requests.run(command);
        }
    });
    match view.mat.board_by {
        BoardBy::Outer { size, placement } => outer(ui, view, size, placement, requests),
        BoardBy::Borders(sides) => {
            let hint = Hint::new(
                "From the board’s outer edge to the top mat’s sight edge, from the front",
            )
            .picture(Picture::Border);
            let (unit, enabled, leaves) = (view.unit(), true, None);
            let (label, name) = ("borders", "Border");
            let field = SidesField { label, name, sides, unit, enabled, hint: &hint, leaves };
            requests.sides(ui, field, |typed| {
                Command::SetBoardBy(view.variant, BoardBy::Borders(typed.applied(sides)))
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
    let hint = Hint::new("A standard size for mat and frame; type another below");
    asked(ui, "standard", &hint, |ui| {
        let width = field_width(ui, 1);
        let lying = size.width > size.height;
        let name = |name: &str| sightedge_service::wording::sides(name, lying);
        let mut known = view.tables.outer.iter();
        let chosen = known.find(|row| row.size == size || row.size == size.turned());
        let chosen = chosen.map_or_else(|| CUSTOM.to_owned(), |row| name(&row.name));
        let offered = view.tables.outer.iter().filter(|row| row.unit == view.unit());
        let offered = offered.map(|row| {
            (name(&row.name), if lying { row.size.turned() } else { row.size }).into()
        });
        if let Some(picked) = list(ui, "Standard outer size", &chosen, width, offered) {
            requests.run(fix(picked, placement));
        }
    });
    let hint = Hint::new("Width and height of the mat board, from edge to edge");
    asked(ui, "outer size", &hint, |ui| {
        requests.size(ui, "Outer", size, view, |size| fix(size, placement));
    });
    let hint = Hint::new(
        "Where the window is on the board: in the middle, with more board below, or where you \
         put it",
    );
    asked(ui, "placement", &hint, |ui| {
        let width = field_width(ui, 1);
        let offered = offered(view, placement);
        let offered = offered.map(|wanted| (name(wanted).to_owned(), wanted).into());
        let chosen = name(placement);
        if let Some(wanted) = list(ui, "Placement of the window", chosen, width, offered) {
            requests.run(fix(size, wanted));
        }
    });
    match placement {
        // A row of its own here, too, so that nothing below jumps when a hand moves the window.
        Placement::Centred | Placement::Optical => {
            asked(ui, "top, bottom", &border_hint(), |ui| {
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
            })
        }
        Placement::BottomExtra(extra) => asked(ui, "bottom extra", &extra_hint(), |ui| {
            let width = field_width(ui, 1);
            let field = LengthField::new("Bottom extra", extra, view.unit()).width(width);
            requests.length(ui, field, |extra| fix(size, Placement::BottomExtra(extra)));
        }),
        Placement::BottomRatio(weight) => asked(ui, "bottom : top", &ratio_hint(), |ui| {
            ratio(ui, weight, |weight| requests.run(fix(size, Placement::BottomRatio(weight))));
        }),
        Placement::Free { left, top } => asked(ui, "left, top", &border_hint(), |ui| {
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
        note(ui, "This mat is cut: the borders are as measured.");
    }
}

fn border_hint() -> Hint {
    Hint::new("The top mat’s border: from the board’s edge to its sight edge, from the front")
        .picture(Picture::Border)
}

fn extra_hint() -> Hint {
    Hint::new("How much wider the bottom border is than the top one").picture(Picture::Border)
}

fn ratio_hint() -> Hint {
    Hint::new("Bottom border to top border, such as 6 to 5").picture(Picture::Border)
}

fn name(placement: Placement) -> &'static str {
    match placement {
        Placement::Centred => "centred",
        Placement::BottomExtra(_) => "wider bottom, by a length",
        Placement::BottomRatio(_) => "wider bottom, by a ratio",
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
        let response = ui.add_sized(egui::vec2(width, crate::window::theme::ROW), field);
        response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::SpinButton, true, name));
        with_row_hint(ui, response);
    }
    if (b, t) != (bottom, top) {
        set(Weight { bottom: b, top: t });
    }
}
