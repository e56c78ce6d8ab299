//! The plan's mats side by side at one scale, their pictures in line, with what differs in words.

use egui::{CentralPanel, Frame, Key, Label, Rect, RichText, Sense, Ui, UiBuilder, pos2, vec2};
use sightedge_core::derived::Derived;
use sightedge_core::differences::differences;
use sightedge_core::finding::Severity;
use sightedge_core::geometry::Size;
use sightedge_core::length::typeset;
use sightedge_core::spec::{Variant, VariantId};

use super::{Mats, Scene};
use crate::window::canvas::piece::{Piece, scale_in_row};
use crate::window::context::Requests;
use crate::window::request::{Action, AppCommand};
use crate::window::theme;
use crate::window::widgets::{quiet, severity_icon};

/// No more are shown at once.
const MOST: usize = 6;
/// The height of what is said of each mat, and its least width, in points.
const WORDS: f32 = 132.0;
const LEAST: f32 = 150.0;
const GAP: f32 = 24.0;

/// Shows them in place of the board and its panels.
pub(super) fn show(ui: &mut Ui, mats: &mut Mats, scene: &Scene<'_>, requests: &mut Requests) {
    let session = scene.session;
    let surround = egui::Color32::from_gray(scene.shows.surround);
    let Some(front) = session.variant().map(|front| front.id) else { return };
    let panel = theme::palette(ui).panel;
    let bar = Frame::new().fill(panel).inner_margin(egui::Margin::symmetric(12, 4));
    egui::Panel::top("comparing").frame(bar).show(ui, |ui| {
        ui.horizontal(|ui| head(ui, mats, scene, requests));
    });
    CentralPanel::default().frame(Frame::new().fill(surround)).show(ui, |ui| {
        ui.push_id((scene.id, "compare"), |ui| {
            row(ui, mats, scene, front, requests);
        });
    });
    let typing = ui.ctx().text_edit_focused();
    if !typing && ui.input_mut(|input| input.consume_key(egui::Modifiers::NONE, Key::Escape)) {
        requests.actions.push(Action::Do(AppCommand::Compare));
    }
}

fn head(ui: &mut Ui, mats: &Mats, scene: &Scene<'_>, requests: &mut Requests) {
    if ui
        .button("Back to the board")
        .on_hover_text("Show the mat in front alone (Esc)")
        .clicked()
    {
        requests.actions.push(Action::Do(AppCommand::Compare));
    }
    let document = scene.session.document();
    let reference = document.variant(mats.reference(scene.session));
    let name = reference.map_or("", |one| one.name.as_str());
    let count = document.variants.len();
    let shown = if count > MOST { format!("{MOST} of {count}") } else { count.to_string() };
    let words = format!("{shown} mats at one scale, each compared with “{name}”");
    ui.add(Label::new(quiet(ui, &words)).truncate());
}

/// The mats shown: all, or those round the one in front.
fn shown<'a>(scene: &Scene<'a>, front: VariantId) -> Vec<(&'a Variant, &'a Derived)> {
    let all: Vec<_> = scene.session.mats().collect();
    let at = all.iter().position(|(one, _)| one.id == front).unwrap_or(0);
    let from = at.saturating_sub(MOST / 2).min(all.len().saturating_sub(MOST));
    all.into_iter().skip(from).take(MOST).collect()
}

fn row(
    ui: &mut Ui,
    mats: &mut Mats,
    scene: &Scene<'_>,
    front: VariantId,
    requests: &mut Requests,
) {
    let all = shown(scene, front);
    let framed = true;
    let pieces: Vec<Piece<'_>> =
        all.iter().map(|(variant, derived)| Piece { variant, derived, framed }).collect();
    let reaches: Vec<_> = pieces.iter().map(Piece::reach).collect();
    let room = ui.available_rect_before_wrap().shrink2(vec2(28.0, 20.0));
    let pictures = room.with_max_y(room.bottom() - WORDS);
    let scale = scale_in_row(&reaches, pictures.size(), GAP, LEAST);
    let widths: Vec<f32> = reaches.iter().map(|one| (one.width() * scale).max(LEAST)).collect();
    let gaps = GAP * f32::from(u8::try_from(widths.len().saturating_sub(1)).unwrap_or(0));
    let wide = widths.iter().sum::<f32>() + gaps;
    let mut left = room.center().x - wide / 2.0;
    let up = reaches.iter().map(|one| one.up).fold(0.0, f32::max) * scale;
    let down = reaches.iter().map(|one| one.down).fold(0.0, f32::max) * scale;
    let line = pictures.top() + ((pictures.height() - up - down) / 2.0).max(0.0) + up;
    for ((piece, reach), width) in pieces.iter().zip(&reaches).zip(widths) {
        let column =
            Rect::from_min_max(pos2(left, room.top()), pos2(left + width, room.bottom()));
        left += width + GAP;
        let at = pos2(column.center().x + (reach.left - reach.right) * scale / 2.0, line);
        // A shadow goes on beside its piece.
        let painter = ui.painter().clone();
        let lies = piece.paint(&painter, (at, scale), scene.shows, scene.pictures);
        let id = ui.make_persistent_id(("compared", piece.variant.id.0));
        let response = ui.interact(lies, id, Sense::click());
        let on = piece.variant.id == front;
        response.widget_info(|| {
            let text = format!("Mat {} beside the others", piece.variant.name);
            egui::WidgetInfo::selected(egui::Role::RadioButton, true, on, text)
        });
        if (response.clicked() || response.gained_focus()) && !on {
            requests.actions.push(Action::BringForward(piece.variant.id));
        }
        let entered = response.has_focus() && ui.input(|input| input.key_pressed(Key::Enter));
        if response.double_clicked() || entered {
            requests.actions.push(Action::Do(AppCommand::Compare));
        }
        response.on_hover_text("Click to bring it to the front, twice to work on it");
        let below = column.with_min_y(line + down + 14.0);
        let mut words =
            ui.new_child(UiBuilder::new().id_salt(piece.variant.id.0).max_rect(below));
        told(&mut words, mats, scene, piece, on);
    }
}

/// Name, size, the gravest check, and what differs.
fn told(ui: &mut Ui, mats: &mut Mats, scene: &Scene<'_>, piece: &Piece<'_>, front: bool) {
    let ink = ink(scene.shows.surround);
    let say = |text: RichText| Label::new(text.color(ink)).wrap();
    let document = scene.session.document();
    let reference = mats.reference(scene.session);
    let id = piece.variant.id;
    ui.spacing_mut().item_spacing.y = 2.0;
    ui.horizontal(|ui| {
        let worst = piece.derived.findings.iter().map(|finding| finding.severity).max();
        if let Some(worst) = worst.filter(|worst| *worst > Severity::Note) {
            severity_icon(ui, worst);
        }
        let mark = if document.chosen == id { "✓ " } else { "" };
        let name =
            RichText::new(format!("{mark}{}", piece.variant.name)).family(theme::strong());
        let name = if front { name.underline() } else { name };
        ui.add(Label::new(name.color(ink)).truncate());
    });
    let unit = document.unit;
    let extent = |size: Size| typeset(&size.extent_text(|side| side.text(unit)));
    let outer = extent(piece.derived.layout.bench.outer);
    let packed = piece.derived.assembly.package.as_ref();
    let framed = packed.and_then(|packed| packed.framed.as_ref());
    let size = match framed {
        Some(framed) => format!("Mat {outer}; framed {}", extent(framed.outside)),
        None => format!("Mat {outer}"),
    };
    ui.add(say(RichText::new(size).size(theme::SMALL)));
    if id == reference {
        ui.add(say(RichText::new("The others are compared with this one").size(theme::SMALL)));
        return;
    }
    let Some(other) = document.variant(reference) else { return };
    let mut differs = differences(document, &piece.variant.mat, &other.mat);
    for line in &mut differs {
        *line = typeset(line);
    }
    let all = differs.join("; ");
    if differs.is_empty() {
        differs.push("No difference to be seen".to_owned());
    }
    let most = 3;
    let more = differs.len().saturating_sub(most);
    differs.truncate(most);
    if more > 0 {
        differs.push(format!("and {more} more"));
    }
    let text = RichText::new(differs.join("; ")).size(theme::SMALL);
    ui.add(say(text)).on_hover_text(all);
    let pin = egui::Button::new(RichText::new("Compare with this").size(theme::SMALL));
    if ui.add(pin).on_hover_text("The others are compared with this mat from now on").clicked()
    {
        mats.pinned = Some(id);
    }
}

/// What can be read on the surround.
fn ink(surround: u8) -> egui::Color32 {
    if surround < 120 { egui::Color32::from_gray(236) } else { egui::Color32::from_gray(16) }
}
