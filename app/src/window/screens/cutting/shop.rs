//! The stock, the cutter and the prices.

use egui::{Button, ComboBox, Ui};
use sightedge_core::length::{Length, Unit};

use super::fields;
use crate::window::context::Requests;
use crate::window::theme;
use crate::window::widgets::{LengthField, choice, field_width, fitted, group, quiet};
use sightedge_service::cutting::model::{Sheet, Shop};

/// Widths of a sheet's fields: board, width, height, price, in hand.
const WIDTHS: [f32; 5] = [84.0, 66.0, 66.0, 50.0, 38.0];

pub(super) fn show(
    ui: &mut Ui,
    shop: &mut Shop,
    boards: &[String],
    unit: Unit,
    rows: f32,
    requests: &mut Requests,
) {
    group(ui, "Sheets and offcuts", |ui| sheets(ui, shop, boards, unit, rows, requests));
    group(ui, "Cutter", |ui| cutter(ui, shop, unit, requests));
}

fn sheets(
    ui: &mut Ui,
    shop: &mut Shop,
    boards: &[String],
    unit: Unit,
    rows: f32,
    requests: &mut Requests,
) {
    ui.horizontal(|ui| {
        ui.spacing_mut().item_spacing.x = 4.0;
        ui.spacing_mut().interact_size.y = 14.0;
        for (words, width) in
            ["board", "width", "height", "price", "have"].into_iter().zip(WIDTHS)
        {
            let text = quiet(ui, words);
            let response = left(ui, width, 14.0, |ui| ui.label(text));
            match words {
                "height" => {
                    response.on_hover_text(
                        "The pattern or grain of a board that has one runs along the height",
                    );
                }
                "have" => {
                    response.on_hover_text("How many you have; empty (∞): as many as you buy");
                }
                _ => {}
            }
        }
    });
    let mut gone = None;
    egui::ScrollArea::vertical()
        .id_salt("stock")
        .max_height(rows * (theme::ROW + theme::GAP))
        .auto_shrink([false, true])
        .show(ui, |ui| {
            for (index, sheet) in shop.sheets.iter_mut().enumerate() {
                ui.push_id(index, |ui| {
                    if one(ui, index + 1, sheet, boards, unit, requests) {
                        gone = Some(index);
                    }
                });
            }
        });
    if let Some(gone) = gone {
        shop.sheets.remove(gone);
    }
    ui.horizontal(|ui| {
        let side = |inches: i64, mm: i64| match unit {
            Unit::Inch => Length::inches(inches, 0, 1).units(),
            Unit::Millimetre => Length::mm(mm).units(),
        };
        if ui.button("Add a sheet").on_hover_text("A size that you buy").clicked() {
            let (width, height) = (side(32, 800), side(40, 1200));
            shop.sheets.push(Sheet { width, height, ..Sheet::default() });
        }
        let hint = "A piece left over from an earlier job: it is used first";
        if ui.button("Add an offcut").on_hover_text(hint).clicked() {
            let (width, height) = (side(16, 400), side(20, 500));
            let in_hand = Some(1);
            let offcut = true;
            shop.sheets.push(Sheet { width, height, in_hand, offcut, ..Sheet::default() });
        }
    });
}

/// One sheet of the stock; whether it is to leave the list.
fn one(
    ui: &mut Ui,
    number: usize,
    sheet: &mut Sheet,
    boards: &[String],
    unit: Unit,
    requests: &mut Requests,
) -> bool {
    let kind = if sheet.offcut { "Offcut" } else { "Sheet" };
    ui.horizontal(|ui| {
        ui.spacing_mut().item_spacing.x = 4.0;
        let shown = if sheet.board.is_empty() { "any" } else { &sheet.board };
        let shown = fitted(ui, shown, WIDTHS[0] - 34.0);
        let name = format!("{kind} {number}, board");
        let mut picked = sheet.board.clone();
        let response = ComboBox::from_id_salt("board")
            .selected_text(shown)
            .width(WIDTHS[0])
            .show_ui(ui, |ui| {
                ui.selectable_value(&mut picked, String::new(), "any");
                for board in boards {
                    ui.selectable_value(&mut picked, board.clone(), board);
                }
            })
            .response;
        let value = if sheet.board.is_empty() { "any".to_owned() } else { sheet.board.clone() };
        response.widget_info(|| {
            let mut info = egui::WidgetInfo::labeled(egui::Role::ComboBox, true, &name);
            info.current_text_value = Some(value.clone());
            info
        });
        if picked != sheet.board {
            (sheet.board, sheet.make) = (picked, None);
        }
        for (side, value, width) in
            [("width", &mut sheet.width, WIDTHS[1]), ("height", &mut sheet.height, WIDTHS[2])]
        {
            let name = format!("{kind} {number}, {side}");
            length(ui, &name, value, unit, width, Length::MM);
        }
        if sheet.offcut {
            let text = quiet(ui, "offcut");
            let response = left(ui, WIDTHS[3], theme::ROW, |ui| ui.label(text));
            if let Some(make) = sheet.make {
                let thick = Length::from_units(make.thickness).text(unit);
                let way = if make.turns { "" } else { ", its pattern along the height" };
                response.on_hover_text(format!("Left of board {thick} thick{way}"));
            }
        } else {
            let name = format!("{kind} {number}, price");
            match fields::price_of(ui, &name, sheet.price, "–", WIDTHS[3]) {
                Some(Ok(price)) => sheet.price = price,
                Some(Err(words)) => requests.said = Some(words),
                None => {}
            }
        }
        let name = format!("{kind} {number}, in hand");
        match fields::count(ui, &name, sheet.in_hand, "∞", WIDTHS[4]) {
            Some(Ok(count)) => sheet.in_hand = count,
            Some(Err(words)) => requests.said = Some(words),
            None => {}
        }
        ui.spacing_mut().button_padding.x = 2.0;
        ui.spacing_mut().interact_size.x = 14.0;
        let button = Button::new("×").frame_when_inactive(false);
        let response = ui.add(button).on_hover_text("Take it out of the stock");
        let label = format!("Take {} {number} out of the stock", kind.to_lowercase());
        response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Button, true, &label));
        response.clicked()
    })
    .inner
}

/// Contents at the left of a place of fixed size.
pub(super) fn left<R>(
    ui: &mut Ui,
    width: f32,
    height: f32,
    contents: impl FnOnce(&mut Ui) -> R,
) -> R {
    let layout = egui::Layout::left_to_right(egui::Align::Center);
    ui.allocate_ui_with_layout(egui::vec2(width, height), layout, |ui| {
        ui.set_min_size(egui::vec2(width, height));
        contents(ui)
    })
    .inner
}

/// A field for a length that is kept as whole units.
fn length(ui: &mut Ui, name: &str, value: &mut i64, unit: Unit, width: f32, least: Length) {
    let field = LengthField::new(name, Length::from_units(*value), unit).width(width);
    if let Some(length) = field.within(least, Length::mm(100_000)).show(ui).1 {
        *value = length.units();
    }
}

/// The column of labels here, in points: they are the trade's full terms.
const LABELS: f32 = 128.0;

/// A row under its full label, which explains itself where the pointer rests.
fn named<R>(ui: &mut Ui, label: &str, hint: &str, contents: impl FnOnce(&mut Ui) -> R) -> R {
    ui.horizontal(|ui| {
        ui.set_min_height(theme::ROW);
        let text = quiet(ui, label);
        let layout = egui::Layout::right_to_left(egui::Align::Center);
        let size = egui::vec2(LABELS, theme::ROW);
        // A row that does not fit must not widen its panel.
        ui.set_max_width(ui.available_width());
        let response = ui.allocate_ui_with_layout(size, layout, |ui| {
            ui.set_min_size(size);
            ui.label(text)
        });
        if !hint.is_empty() {
            response.inner.on_hover_text(hint);
        }
        contents(ui)
    })
    .inner
}

fn cutter(ui: &mut Ui, shop: &mut Shop, unit: Unit, requests: &mut Requests) {
    let hint = "How often a sheet is cut across: into strips, the strips into pieces, the pieces \
                once more. Fewer rounds are quicker at the bench; more may save a sheet";
    named(ui, "Rounds of cuts", hint, |ui| {
        let width = ui.available_width();
        let options = [(2, "two"), (3, "three"), (0, "any")];
        let now = Some(shop.rounds);
        if let Some(rounds) = choice(ui, "Rounds of cuts", now, &options, width) {
            shop.rounds = rounds;
        }
    });
    for (label, hint, value) in [
        (
            "Trim off each edge",
            "Taken off every edge of a bought sheet first: factory edges are seldom square",
            &mut shop.trim,
        ),
        (
            "Width of cut (kerf)",
            "What each cut turns to dust: 0 for a knife or a sheet cutter, the blade's width for \
             a saw",
            &mut shop.kerf,
        ),
        (
            "Narrowest strip",
            "The narrowest strip your cutter can hold while it cuts; 0: any",
            &mut shop.least_strip,
        ),
        (
            "Keep offcuts from",
            "What is left over goes into the stock if its shorter side is at least this long",
            &mut shop.keep_from,
        ),
        (
            "Narrow borders by",
            "The most that any border may lose to save a sheet; each saving is offered first. 0: \
             borders stay as they are",
            &mut shop.give,
        ),
    ] {
        named(ui, label, hint, |ui| {
            let width = field_width(ui, 2);
            length(ui, label, value, unit, width, Length::ZERO);
        });
    }
    named(ui, "", "", |ui| {
        let check = ui.checkbox(&mut shop.drop_outs, "Use drop-outs");
        check.on_hover_text("Cut small pieces from what falls out of the windows, too");
    });
    named(ui, "", "", |ui| {
        ui.add_enabled_ui(shop.drop_outs, |ui| {
            let check = ui.checkbox(&mut shop.taped_back, "Those taped back, too");
            check.on_hover_text(
                "Also those that are taped back while an undermat is cut through them: once that is \
                 done they are taken out again",
            );
        });
    });
    let (glazing, tape) = match unit {
        Unit::Inch => ("ft²", "yd"),
        Unit::Millimetre => ("m²", "m"),
    };
    let hint =
        "For the cost of the show: glazing and tape by the measure in the field, and a bag";
    let prices = &mut shop.prices;
    let of_glazing = (format!("Price of glazing, {glazing}"), format!("glass {glazing}"));
    let of_tape = (format!("Price of tape, {tape}"), format!("tape {tape}"));
    let of_bag = ("Price of a bag".to_owned(), "bag".to_owned());
    let mut field =
        |ui: &mut Ui, (name, hint): (String, String), price: &mut Option<i64>, width| {
            match fields::price_of(ui, &name, *price, &hint, width) {
                Some(Ok(new)) => *price = new,
                Some(Err(words)) => requests.said = Some(words),
                None => {}
            }
        };
    named(ui, "Prices", hint, |ui| {
        let width = field_width(ui, 2);
        field(ui, of_glazing, &mut prices.glazing, width);
        field(ui, of_tape, &mut prices.tape, width);
    });
    named(ui, "", hint, |ui| {
        let width = field_width(ui, 2);
        field(ui, of_bag, &mut prices.bag, width);
    });
}
