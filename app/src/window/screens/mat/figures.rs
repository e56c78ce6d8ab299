//! The figures for the bench, and the exact ones where the ruler rounds.

use egui::{RichText, Ui};
use sightedge_core::geometry::{Seen, Sides, Size};
use sightedge_core::length::Length;

use crate::window::context::View;
use crate::window::theme;
use crate::window::widgets::{pair, quiet};
use sightedge_service::wording;

/// Shows the figures.
pub(super) fn figures(ui: &mut Ui, view: &View<'_>) {
    let layout = &view.derived.layout;
    // Once for all that follows: left and right are those of the front.
    let head = format!("For the bench, {}", Seen::Front.words());
    ui.label(RichText::new(head).family(theme::strong()).size(theme::BODY));
    let same = layout.bench == layout.exact;
    let words = if layout.in_hand {
        "A ready-cut window: as measured.".to_owned()
    } else if same {
        "All of them are on your ruler.".to_owned()
    } else {
        "Rounded to your ruler; rest the pointer on a figure for the exact one.".to_owned()
    };
    ui.label(quiet(ui, &words));
    let (bench, exact) = (&layout.bench, &layout.exact);
    let (Some(window), Some(true_window)) = (bench.openings.first(), exact.openings.first())
    else {
        return;
    };
    ui.spacing_mut().interact_size.y = 20.0;
    ui.scope(|ui| {
        ui.spacing_mut().item_spacing.y = 2.0;
        let table = Table { view };
        table.size(ui, "Outer", bench.outer, exact.outer);
        let single = window.layers.len() == 1;
        let layers = || window.layers.iter().zip(&true_window.layers).enumerate();
        for (index, (cut, exact)) in layers() {
            let name = view.mat.layer_name(index);
            if cut.done && !layout.in_hand {
                Table::row(ui, &name, MEASURED, MEASURED);
            }
            let name = if single { "Window".to_owned() } else { format!("{name} window") };
            table.size(ui, &name, cut.sight.bounds.size, exact.sight.bounds.size);
        }
        if single {
            if let (Some(cut), Some(exact)) = (window.top(), true_window.top()) {
                table.sides(ui, "Border", cut.borders, exact.borders);
            }
        } else {
            // The word alone is the top mat's: here each is named.
            ui.label(quiet(ui, "Borders"));
            for (index, (cut, exact)) in layers() {
                let name = view.mat.layer_name(index);
                table.pairs(ui, &name, cut.borders, exact.borders);
            }
        }
        let (cut, exact) = (window.overlap, true_window.overlap);
        if single {
            table.sides(ui, "Overlap", cut, exact);
        } else {
            table.pairs(ui, "Overlap", cut, exact);
        }
    });
}

/// How what is cut already is marked.
const MEASURED: &str = "cut, as measured";

struct Table<'a> {
    view: &'a View<'a>,
}

impl Table<'_> {
    fn row(ui: &mut Ui, name: &str, shown: &str, exact: &str) {
        let response = pair(ui, name, shown);
        if shown != exact {
            response.on_hover_text(format!("Exactly {exact}"));
        }
    }

    fn size(&self, ui: &mut Ui, name: &str, size: Size, exact: Size) {
        let unit = self.view.unit();
        let text = |size: Size| size.extent_text(|side| wording::length(side, unit));
        Self::row(ui, name, &text(size), &text(exact));
    }

    /// Four sides in two rows.
    fn pairs(&self, ui: &mut Ui, name: &str, cut: Sides<Length>, exact: Sides<Length>) {
        for (sides, cut, exact) in [
            ("top, bottom", [cut.top, cut.bottom], [exact.top, exact.bottom]),
            ("left, right", [cut.left, cut.right], [exact.left, exact.right]),
        ] {
            self.two(ui, &format!("{name}, {sides}"), cut, exact);
        }
    }

    fn two(&self, ui: &mut Ui, name: &str, pair: [Length; 2], exact: [Length; 2]) {
        let unit = self.view.unit();
        let text = |[first, second]: [Length; 2]| {
            format!("{}, {}", wording::number(first, unit), wording::length(second, unit))
        };
        Self::row(ui, name, &text(pair), &text(exact));
    }

    fn sides(&self, ui: &mut Ui, name: &str, sides: Sides<Length>, exact: Sides<Length>) {
        let unit = self.view.unit();
        for (side, length) in sides.each() {
            let title = format!("{name}, {}", side.name());
            let text = wording::length(length, unit);
            Self::row(ui, &title, &text, &wording::length(exact.of(side), unit));
        }
    }
}
