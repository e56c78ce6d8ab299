//! At the bench: the cuts of the sheet in front, what is cut so far, what it all comes to.

use std::path::{Path, PathBuf};

use egui::{Panel, RichText, ScrollArea, Ui};
use sightedge_core::geometry::Size;
use sightedge_core::length::{Length, Unit};
use sightedge_core::money;
use sightedge_cutting::{Counts, Pattern};

use super::cuts::cuts;
use super::worker::List;
use super::{Sheets, fields};
use crate::window::context::Requests;
use crate::window::theme;
use crate::window::widgets::{field_width, fitted, group, pair, quiet};
use crate::window::workers::Keep;
use sightedge_service::cutting::model::{BoardPlan, Cutting, Shop};
use sightedge_service::wording;

/// Room for what the show takes besides boards: the cuts need theirs.
const MATERIALS: f32 = 180.0;

/// Sheets alike that get a tick each; more get a count.
const TICKS: u32 = 6;

impl Sheets {
    pub(super) fn bench(&mut self, ui: &mut Ui, requests: &mut Requests) {
        Panel::bottom("totals").frame(egui::Frame::new()).show_separator_line(true).show(
            ui,
            |ui| {
                self.totals(ui);
                self.written(ui, requests);
            },
        );
        let searching = self.is_looking();
        let sound = self.faults.is_empty();
        let (at, number) = (self.board, self.pattern);
        let Some(cutting) = &mut self.cutting else { return };
        let (unit, settled_all) = (cutting.unit(), cutting.settled);
        let sequence = cutting.sequence(at, number);
        let title = cutting.title(at, number).unwrap_or_default();
        let mut ticked = false;
        if let Some(board) = cutting.boards.get_mut(at)
            && let Some(pattern) = board.plan.patterns.get(number)
        {
            let copies = pattern.copies;
            let stock = board.teller(unit, wording::set).stock(pattern);
            let words = format!("{}, {stock}", board.name);
            group(ui, &title, |ui| {
                let short = fitted(ui, &words, ui.available_width() - 8.0);
                ui.label(quiet(ui, &short)).on_hover_text(words);
                ui.add_enabled_ui(!searching && sound, |ui| {
                    let settled = board.settled(number);
                    ticked = ticks(ui, &mut board.cut[number], (settled, copies), requests);
                });
                if !searching && !settled_all {
                    ticked |= offcuts(ui, &mut self.shop, board, number, unit);
                }
            });
            if let Some(sequence) = sequence {
                group(ui, "Cuts in their order, face up", |ui| {
                    let front = self.step.min(sequence.cuts.len().saturating_sub(1));
                    self.step = cuts(ui, board, &sequence, front, unit);
                });
            }
        }
        if ticked {
            requests.keep(Keep::Cutting(Box::new(cutting.clone())));
        }
        if cutting.is_cut() && !cutting.settled && !searching {
            ui.add_space(8.0);
            let hint = "Takes the sheets you cut out of the stock, and adds the offcuts that are \
                        large enough to keep";
            let button = egui::Button::new("Put what is left into the stock");
            if ui.add(button).on_hover_text(hint).clicked() {
                self.shop.settle(cutting);
                requests.keep(Keep::Cutting(Box::new(cutting.clone())));
            }
        }
    }

    fn totals(&self, ui: &mut Ui) {
        let Some(cutting) = &self.cutting else { return };
        let unit = cutting.unit();
        ui.add_space(8.0);
        ui.spacing_mut().interact_size.y = 18.0;
        ui.spacing_mut().item_spacing.y = 2.0;
        let all = Sums::of(cutting);
        let strong = RichText::new("The whole show").family(theme::strong());
        ui.label(strong);
        pair(ui, "sheets to buy", &all.counts.bought.to_string());
        for (words, count) in
            [("sheets from stock", all.counts.in_hand), ("drop-outs", all.counts.drop_outs)]
        {
            if count > 0 {
                pair(ui, words, &count.to_string());
            }
        }
        if let Some(cost) = cutting.cost() {
            pair(ui, "cost of the boards", &money::text(cost));
        }
        pair(ui, "waste", &format!("{:.0} %", all.waste * 100.0));
        let long = wording::set(&long(all.cut_length, unit));
        pair(ui, "straight cuts", &format!("{}, {long} in all", all.cuts));
        let lines = ScrollArea::vertical().id_salt("materials").max_height(MATERIALS);
        lines.show(ui, |ui| {
            for line in &cutting.materials {
                let cost = line.cost.map(|cost| format!(", {}", money::text(cost)));
                let words = format!("{}{}", line.amount, cost.unwrap_or_default());
                // That sizes are those inside is told where the pointer rests.
                let short = line.what.split(", inside").next().unwrap_or_default();
                let name = fitted(ui, short, 150.0);
                let response = pair(ui, &name, &fitted(ui, &wording::set(&words), 140.0));
                response.on_hover_text(format!("{}: {}", line.what, wording::set(&words)));
            }
        });
        let known: Vec<i64> = cutting.materials.iter().filter_map(|line| line.cost).collect();
        if let Some(boards) = cutting.cost()
            && known.len() == cutting.materials.len()
            && !known.is_empty()
        {
            let sum = boards.saturating_add(known.iter().sum());
            pair(ui, "cost of all", &money::text(sum));
        }
        ui.add_space(4.0);
    }

    /// The list for other programs, and the paper.
    fn written(&mut self, ui: &mut Ui, requests: &mut Requests) {
        let place = self.list.clone().unwrap_or_else(|| {
            let folder = self.wanted.first().and_then(|wanted| wanted.path.parent());
            folder.unwrap_or(Path::new("")).join("cutting list").display().to_string()
        });
        ui.spacing_mut().interact_size.y = theme::ROW;
        ui.spacing_mut().item_spacing.y = theme::GAP;
        let (width, hint) = (ui.available_width(), "/home/you/cutting list");
        if let Some(typed) = fields::text(ui, "Where the list is written", &place, hint, width)
        {
            self.list = Some(typed.trim().to_owned());
        }
        let writing = self.workers.as_ref().is_some_and(|workers| workers.lists.pending() > 0);
        let free = !self.is_looking() && !writing;
        let mut wanted = None;
        ui.horizontal(|ui| {
            let width = field_width(ui, 2);
            let size = egui::vec2(width, theme::ROW);
            for (ending, words, hint) in [
                ("csv", "Write the table", "Every cut and piece as a table for other programs"),
                (
                    "pdf",
                    "Write the sheets",
                    "Every sheet to scale with its cuts and stops, as PDF",
                ),
            ] {
                let button = |ui: &mut Ui| ui.add_sized(size, egui::Button::new(words));
                if ui.add_enabled_ui(free, button).inner.on_hover_text(hint).clicked() {
                    wanted = Some(ending);
                }
            }
        });
        let Some(ending) = wanted else { return };
        let Some(cutting) = self.cutting.clone() else { return };
        let place = PathBuf::from(self.list.clone().unwrap_or(place));
        requests.said = None;
        self.workers(ui.ctx()).lists.request(List { cutting, place, ending });
    }
}

/// What the whole show comes to.
struct Sums {
    counts: Counts,
    cuts: u64,
    cut_length: Length,
    waste: f64,
}

impl Sums {
    fn of(cutting: &Cutting) -> Self {
        let mut sums =
            Self { counts: Counts::default(), cuts: 0, cut_length: Length::ZERO, waste: 0.0 };
        let mut face = 0.0;
        for board in &cutting.boards {
            let totals = board.totals();
            sums.counts.add(board.counts());
            sums.cuts += totals.cuts;
            let units = totals.cut_length.saturating_mul(i128::from(board.step));
            sums.cut_length += Length::from_units(i64::try_from(units).unwrap_or(i64::MAX / 4));
            let area = area(board);
            face += area;
            sums.waste += totals.waste * area;
        }
        if face > 0.0 {
            sums.waste /= face;
        }
        sums
    }
}

/// The face of all sheets of a board, in square millimetres.
fn area(board: &BoardPlan) -> f64 {
    let sheet = |pattern: &Pattern| {
        let stock = &board.problem.stocks[pattern.stock];
        let (w, h) = (board.length(stock.width).to_mm(), board.length(stock.height).to_mm());
        w * h * f64::from(pattern.copies)
    };
    // A drop-out's face is that of the sheet it came from.
    let whole = |pattern: &&Pattern| !board.is_drop_out(pattern);
    board.plan.patterns.iter().filter(whole).map(sheet).sum()
}

/// A long length, in feet or metres to a tenth.
fn long(length: Length, unit: Unit) -> String {
    match unit {
        Unit::Inch => format!("{:.0} ft", length.to_inches() / 12.0),
        Unit::Millimetre => format!("{:.1} m", length.to_mm() / 1000.0),
    }
}

/// What is left of the sheets that are ticked as cut, and the button that puts it into the stock;
/// whether it was pressed.
fn offcuts(ui: &mut Ui, shop: &mut Shop, board: &mut BoardPlan, at: usize, unit: Unit) -> bool {
    let count = board.unsettled(at);
    if count == 0 {
        return false;
    }
    let left = board.offcuts_of(at, count, Length::from_units(shop.keep_from));
    if left.is_empty() {
        ui.label(quiet(ui, "Nothing left of it is large enough to keep."));
        return false;
    }
    let sizes = left.iter().map(|(width, height, count)| {
        let size = Size::new(*width, *height).sides_text(|side| wording::near(side, unit));
        if *count == 1 { size } else { format!("{count} of {size}") }
    });
    let words = format!("Left over: {}", sizes.collect::<Vec<_>>().join(", "));
    ui.add(egui::Label::new(words).wrap());
    let hint = "Adds these offcuts to the stock, and takes the sheets you cut out of it";
    let pressed = ui.button("Put these offcuts into the stock").on_hover_text(hint).clicked();
    if pressed {
        shop.settle_cut(board, at);
    }
    pressed
}

/// Ticks for the sheets that are cut, never fewer than are `settled`; whether one changed.
fn ticks(
    ui: &mut Ui,
    cut: &mut u32,
    (settled, copies): (u32, u32),
    requests: &mut Requests,
) -> bool {
    let before = *cut;
    if copies == 1 {
        let mut on = *cut > 0;
        ui.checkbox(&mut on, "cut");
        *cut = u32::from(on);
    } else if copies <= TICKS {
        ui.horizontal(|ui| {
            ui.label(quiet(ui, "cut so far"));
            ui.spacing_mut().item_spacing.x = 2.0;
            for number in 1..=copies {
                let mut on = *cut >= number;
                let response = ui.checkbox(&mut on, "");
                response.widget_info(|| {
                    let label = format!("Cut, {number} of {copies} alike");
                    egui::WidgetInfo::selected(egui::Role::CheckBox, true, on, label)
                });
                if response.changed() {
                    *cut = if on { number } else { number - 1 };
                }
            }
        });
    } else {
        ui.horizontal(|ui| {
            ui.label(quiet(ui, "cut so far"));
            let label = format!("Cut so far, of {copies} alike");
            match fields::count(ui, &label, Some(*cut), "0", 56.0) {
                Some(Ok(count)) => *cut = count.unwrap_or(0).min(copies),
                Some(Err(words)) => requests.said = Some(words),
                None => {}
            }
            ui.label(quiet(ui, &format!("of {copies}")));
        });
    }
    *cut = (*cut).max(settled.min(copies));
    *cut != before
}
