//! A panel beside the board, as wide as the window allows: in a narrow window it folds into a
//! strip with its name before the board becomes small, in a wide one it takes more.

use egui::{
    Frame, Id, Margin, Panel, Rect, Role, Sense, Stroke, StrokeKind, Ui, WidgetInfo, vec2,
};
use sightedge_core::finding::Severity;

use super::regions::{Region, region};
use crate::window::theme;

/// A panel beside the board.
#[derive(Clone, Copy, Debug)]
pub struct SidePanel<'a> {
    id: &'static str,
    name: &'a str,
    right: bool,
    mark: Option<Severity>,
}

/// How wide a panel is in a window of some width, in points.
#[derive(Clone, Copy, Debug)]
struct Widths {
    usual: f32,
    least: f32,
    most: f32,
    /// Whether it is folded until it is opened.
    folds: bool,
    /// A panel of another kind of window has its own width.
    kind: &'static str,
}

/// As wide as the strip of a folded panel, in points.
const STRIP: f32 = 32.0;

impl Widths {
    /// In a window `wide` points wide.
    const fn of(wide: f32, right: bool) -> Self {
        let (usual, least, most, folds, kind) = if right {
            if wide >= 2000.0 {
                (560.0, 280.0, 760.0, false, "wide")
            } else if wide >= 1180.0 {
                (268.0, 220.0, 400.0, false, "usual")
            } else if wide >= 1080.0 {
                (232.0, 220.0, 300.0, false, "narrow")
            } else {
                (240.0, 220.0, 300.0, true, "small")
            }
        } else if wide >= 2000.0 {
            (420.0, 340.0, 560.0, false, "wide")
        } else if wide >= 1180.0 {
            (372.0, 340.0, 460.0, false, "usual")
        } else if wide >= 760.0 {
            (340.0, 320.0, 380.0, false, "narrow")
        } else {
            (340.0, 320.0, 340.0, true, "small")
        };
        Self { usual, least, most, folds, kind }
    }
}

impl<'a> SidePanel<'a> {
    /// At the left, where things are decided.
    pub const fn left(id: &'static str, name: &'a str) -> Self {
        Self { id, name, right: false, mark: None }
    }

    /// At the right, where the checks and figures are.
    pub const fn right(id: &'static str, name: &'a str) -> Self {
        Self { id, name, right: true, mark: None }
    }

    /// The gravest of what is in it, which its strip shows.
    #[must_use]
    pub const fn mark(mut self, mark: Option<Severity>) -> Self {
        self.mark = mark;
        self
    }

    /// Shows it.
    pub fn show(self, ui: &mut Ui, margin: Margin, contents: impl FnOnce(&mut Ui)) {
        let widths = Widths::of(ui.ctx().content_rect().width(), self.right);
        let id = Id::unique(self.id).with(widths.kind);
        let of = if self.right { Region::Checks } else { Region::Panel };
        let frame = Frame::new().fill(theme::palette(ui).panel);
        if widths.folds {
            let mut open: bool = ui.data(|data| data.get_temp(id)).unwrap_or_default();
            let strip = id.with("strip");
            let panel = if self.right { Panel::right(strip) } else { Panel::left(strip) };
            panel.frame(frame).resizable(false).exact_size(STRIP).show(ui, |ui| {
                let pressed = |ui: &mut Ui| self.strip(ui, open);
                // Open, the panel itself is the region.
                if if open { pressed(ui) } else { region(ui, of, pressed) } {
                    open = !open;
                    ui.data_mut(|data| data.insert_temp(id, open));
                    ui.request_repaint();
                }
            });
            if !open {
                return;
            }
        }
        let panel = if self.right { Panel::right(id) } else { Panel::left(id) };
        panel
            .frame(frame.inner_margin(margin))
            .resizable(true)
            .default_size(widths.usual)
            .size_range(widths.least..=widths.most)
            .show(ui, |ui| region(ui, of, contents));
    }

    /// The strip of a panel that folds: its name, turned; says whether it was pressed.
    fn strip(self, ui: &mut Ui, open: bool) -> bool {
        let palette = theme::palette(ui);
        let (rect, response) = ui.allocate_exact_size(ui.available_size(), Sense::click());
        let words = format!("{} {}", if open { "Hide" } else { "Show" }, self.name);
        response.widget_info(|| WidgetInfo::selected(Role::Button, true, open, &words));
        if response.hovered() || open {
            ui.painter().rect_filled(rect, 0.0, palette.hover);
        }
        if response.has_focus() {
            let stroke = Stroke::new(1.5, palette.accent);
            ui.painter().rect_stroke(rect.shrink(1.0), 3.0, stroke, StrokeKind::Inside);
        }
        let mut top = rect.top() + 12.0;
        if let Some(severity) = self.mark.filter(|_| !open) {
            let mark = Rect::from_center_size(
                egui::pos2(rect.center().x, top + 8.0),
                vec2(18.0, 20.0),
            );
            let mut place = ui.new_child(egui::UiBuilder::new().max_rect(mark));
            super::severity_icon(&mut place, severity);
            top += 30.0;
        }
        let font = egui::FontId::new(theme::BODY, theme::strong());
        let painter = ui.painter();
        let galley = painter.layout_no_wrap(self.name.to_owned(), font, palette.text);
        // Read from below, as the back of a book lies.
        let at = egui::pos2(rect.center().x - galley.size().y / 2.0, top + galley.size().x);
        let mut text = egui::epaint::TextShape::new(at, galley, palette.text);
        text.angle = -std::f32::consts::FRAC_PI_2;
        painter.add(text);
        response.on_hover_text(words).clicked()
    }
}
