//! A colour for a board: by light, strength and hue as the eye orders them, by its hex, or
//! from the picture.

use egui::{Sense, Ui, vec2};
use sightedge_core::material::{Board, Colour};
use sightedge_pictures::colour::Lab;

use super::swatches::{CUSTOM, hex, near_boards};
use crate::window::context::View;
use crate::window::widgets::{Hint, quiet};
use crate::window::{display, theme};

/// What is being picked.
#[derive(Clone, Copy, PartialEq, Debug)]
struct Picked {
    from: Colour,
    light: f64,
    chroma: f64,
    hue: f64,
}

impl Picked {
    fn of(colour: Colour) -> Self {
        let lab = Lab::from_srgb([colour.red, colour.green, colour.blue]);
        Self { from: colour, light: lab.l, chroma: lab.chroma(), hue: lab.hue() }
    }

    fn colour(self) -> Colour {
        let (sine, cosine) = self.hue.to_radians().sin_cos();
        let lab = Lab { l: self.light, a: self.chroma * cosine, b: self.chroma * sine };
        let [red, green, blue] = lab.to_srgb();
        Colour::new(red, green, blue)
    }
}

/// Shows the picker for a board's colour; gives the board that was taken.
pub(super) fn show(ui: &mut Ui, view: &View<'_>, board: &Board) -> Option<Board> {
    let now = board.colour;
    let id = ui.make_persistent_id("picked");
    let mut picked: Picked =
        ui.data(|data| data.get_temp(id)).unwrap_or_else(|| Picked::of(now));
    if picked.from != now {
        picked = Picked::of(now);
    }
    let before = picked;
    let mut taken = None;
    ui.spacing_mut().slider_width = (ui.available_width() - 132.0).clamp(80.0, 220.0);
    for (value, name, most, hint) in [
        (&mut picked.light, "Light", 100.0, "From black, 0, to white, 100"),
        (&mut picked.chroma, "Strength", 80.0, "From grey, 0, to a strong colour"),
        (&mut picked.hue, "Hue", 360.0, "Round the circle: red, yellow, green, blue, red"),
    ] {
        ui.horizontal(|ui| {
            let size = vec2(56.0, theme::ROW);
            ui.allocate_ui(size, |ui| {
                ui.set_min_size(size);
                ui.label(quiet(ui, name));
            });
            let slider = egui::Slider::new(value, 0.0..=most).fixed_decimals(0);
            let response = ui.add(slider);
            response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Slider, true, name));
            Hint::new(hint).on(ui, response);
        });
    }
    let chosen =
        if picked == before && picked == Picked::of(now) { now } else { picked.colour() };
    ui.horizontal(|ui| {
        patch(ui, now, "As it is");
        patch(ui, chosen, "As picked");
        let take = egui::Button::new("Take this colour");
        if ui.add_enabled(chosen != now, take).clicked() {
            taken = Some(chosen);
        }
    });
    ui.horizontal(|ui| {
        ui.label(quiet(ui, "Hexadecimal"));
        taken = hex(ui, "Colour in hexadecimal", now).or(taken);
    });
    taken = from_picture(ui, view).or(taken);
    ui.data_mut(|data| data.insert_temp(id, picked));
    let own = taken.map(|colour| {
        let name = CUSTOM.to_owned();
        Board { colour, name, id: String::new(), ..board.clone() }
    });
    let wanted = Lab::from_srgb([chosen.red, chosen.green, chosen.blue]);
    near_boards(ui, view, wanted, board.thickness).or(own)
}

fn patch(ui: &mut Ui, colour: Colour, name: &str) {
    let (rect, response) = ui.allocate_exact_size(vec2(40.0, theme::ROW), Sense::hover());
    fill(ui, rect, colour, false);
    let text = format!("{name} {}", colour.hex());
    response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Image, true, &text));
    response.on_hover_text(text);
}

fn fill(ui: &Ui, rect: egui::Rect, colour: Colour, on: bool) {
    let palette = theme::palette(ui);
    ui.painter().rect(
        rect,
        3.0,
        display::colour(ui.ctx(), [colour.red, colour.green, colour.blue]),
        egui::Stroke::new(1.0, if on { palette.accent } else { palette.line }),
        egui::StrokeKind::Inside,
    );
}

/// Colours drawn from the picture itself.
fn from_picture(ui: &mut Ui, view: &View<'_>) -> Option<Colour> {
    let palette = view.palette?;
    let swatches = [&palette.light, &palette.dark, &palette.mean];
    let mut taken = None;
    ui.label(quiet(ui, "Colours of the picture"));
    ui.horizontal_wrapped(|ui| {
        for swatch in swatches.into_iter().chain(palette.accents.iter().take(5)) {
            let colour = Colour::new(swatch.rgb[0], swatch.rgb[1], swatch.rgb[2]);
            let (rect, response) = ui.allocate_exact_size(vec2(24.0, 24.0), Sense::click());
            fill(ui, rect, colour, response.hovered() || response.has_focus());
            let text = format!("Colour of the picture {}", colour.hex());
            response
                .widget_info(|| egui::WidgetInfo::labeled(egui::Role::ColorWell, true, &text));
            if response.on_hover_text(colour.hex()).clicked() {
                taken = Some(colour);
            }
        }
    });
    taken
}
