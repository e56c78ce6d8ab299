//! One mat's place in the strip, and what mouse and keys do there.

use egui::{Key, Modifiers, Rect, Response, Ui, vec2};
use sightedge_core::command::Command;
use sightedge_core::length::typeset;
use sightedge_core::spec::VariantId;

use super::super::Scene;
use super::{Doing, Mats};
use crate::window::canvas::piece::Piece;
use crate::window::context::Requests;
use crate::window::request::Action;
use crate::window::theme;
use crate::window::widgets::fitted;

/// The place of one mat: its ground, its name, whether it is chosen.
pub(super) fn place(
    ui: &Ui,
    scene: &Scene<'_>,
    piece: &Piece<'_>,
    (rect, response): (Rect, &Response),
    front: bool,
) {
    let palette = theme::palette(ui);
    let document = scene.session.document();
    let chosen = document.chosen == piece.variant.id;
    let surround = egui::Color32::from_gray(scene.shows.surround);
    ui.painter().rect_filled(rect.with_max_y(rect.bottom() - 20.0), 3.0, surround);
    let edge = if front || response.has_focus() || response.hovered() {
        let ink = if response.hovered() && !front { palette.line } else { palette.accent };
        egui::Stroke::new(if front { 2.0 } else { 1.0 }, ink)
    } else {
        egui::Stroke::NONE
    };
    ui.painter().rect_stroke(rect, 3.0, edge, egui::StrokeKind::Inside);
    let name = &piece.variant.name;
    let mark = if chosen { "✓ " } else { "" };
    let shown = fitted(ui, &format!("{mark}{name}"), rect.width() - 8.0);
    ui.painter().text(
        rect.center_bottom() - vec2(0.0, 10.0),
        egui::Align2::CENTER_CENTER,
        shown,
        egui::FontId::proportional(theme::SMALL),
        if front { palette.text } else { palette.quiet },
    );
    let told = match (&document.choice, chosen) {
        (_, false) => String::new(),
        (None, true) => ", the one that is made".to_owned(),
        (Some(choice), true) if choice.words.is_empty() => format!(", chosen {}", choice.when),
        (Some(choice), true) => format!(", chosen {}: “{}”", choice.when, choice.words),
    };
    response.widget_info(|| {
        let text = format!("Mat {name}{told}");
        egui::WidgetInfo::selected(egui::Role::RadioButton, true, front, text)
    });
    let reference = document.chosen().filter(|one| one.id != piece.variant.id);
    let differs = reference.map_or_else(Vec::new, |other| {
        sightedge_core::differences::differences(document, &piece.variant.mat, &other.mat)
    });
    let mut hint = format!("{name}{told}");
    for line in differs {
        hint = format!("{hint}\n{}", typeset(&line));
    }
    response.clone().on_hover_text(hint);
}

/// Mouse and keys on the places: to the front, another order, a name, the choice.
pub(super) fn hands(
    ui: &Ui,
    mats: &mut Mats,
    places: &[(VariantId, Rect, Response)],
    front: VariantId,
    requests: &mut Requests,
) {
    for (index, (id, rect, response)) in places.iter().enumerate() {
        let shown = response.clicked() || response.drag_started() || response.gained_focus();
        if shown && *id != front {
            requests.actions.push(Action::BringForward(*id));
        }
        if response.clicked() {
            response.request_focus();
        }
        if response.double_clicked() {
            mats.begin(Doing::Renaming(*id));
        }
        if let Some(at) = response.interact_pointer_pos().filter(|_| response.dragged()) {
            let to = place_at(places, at.x);
            if to != index {
                let other = places[to].1;
                let x = if to > index { other.right() + 2.0 } else { other.left() - 2.0 };
                let ink = egui::Stroke::new(2.0, theme::palette(ui).accent);
                ui.painter().vline(x, rect.y_range(), ink);
            }
        }
        if response.drag_stopped()
            && let Some(at) = ui.ctx().pointer_latest_pos()
        {
            let to = place_at(places, at.x);
            if to != index {
                requests.run(Command::MoveMat(*id, to));
            }
        }
        if !response.has_focus() {
            continue;
        }
        let pressed = |modifiers, key| ui.input_mut(|input| input.consume_key(modifiers, key));
        if pressed(Modifiers::ALT, Key::ArrowLeft) && index > 0 {
            requests.run(Command::MoveMat(*id, index - 1));
        } else if pressed(Modifiers::ALT, Key::ArrowRight) && index + 1 < places.len() {
            requests.run(Command::MoveMat(*id, index + 1));
        } else if pressed(Modifiers::NONE, Key::F2) {
            mats.begin(Doing::Renaming(*id));
        } else if pressed(Modifiers::NONE, Key::Delete) {
            requests.run(Command::RemoveMat(*id));
        } else if pressed(Modifiers::NONE, Key::Enter) {
            mats.begin(Doing::Choosing(*id, String::new()));
        }
    }
}

/// The place that a pointer at `x` is over, or nearest to.
fn place_at(places: &[(VariantId, Rect, Response)], x: f32) -> usize {
    places.iter().filter(|(_, rect, _)| rect.right() < x).count().min(places.len() - 1)
}
