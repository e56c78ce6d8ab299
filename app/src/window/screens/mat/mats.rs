//! The plan's mats as a strip of small pictures under the board, all at one scale; there a new one
//! is made, renamed, put elsewhere, removed and chosen.

mod place;

use egui::{Align, Key, Layout, Modifiers, Panel, ScrollArea, Sense, Ui, vec2};
use sightedge_core::command::{Command, copy_mat, free_name};
use sightedge_core::spec::{Choice, VariantId};

use place::{hands, place};

use super::Scene;
use crate::window::canvas::piece::{Piece, scale_in_row};
use crate::window::context::Requests;
use crate::window::request::{Action, AppCommand};
use crate::window::session::PlanSession;
use crate::window::theme;
use crate::window::widgets::{quiet, text};
use sightedge_service::dates;

/// The height of a small picture and the width of its place, in points.
const PICTURE: f32 = 64.0;
const PLACE: f32 = 92.0;

/// What is shown and typed of a plan's mats.
#[derive(Debug, Default)]
pub struct Mats {
    comparing: bool,
    /// The mat that the others are compared with; the chosen one until another is pinned.
    pub(super) pinned: Option<VariantId>,
    doing: Option<Doing>,
    /// Whether its field takes the focus once it is shown.
    fresh: bool,
    /// The mat whose place takes the focus once it is shown.
    focus: Option<VariantId>,
}

/// What is typed in the line over the pictures.
#[derive(Clone, PartialEq, Eq, Debug)]
enum Doing {
    Renaming(VariantId),
    /// With the client's words so far.
    Choosing(VariantId, String),
}

impl Mats {
    /// Begins to type in the line over the pictures.
    fn begin(&mut self, doing: Doing) {
        self.doing = Some(doing);
        self.fresh = true;
    }

    /// Shows the mats side by side, or the board again.
    pub fn compare(&mut self, session: &PlanSession) {
        self.comparing = !self.comparing && session.document().variants.len() > 1;
    }

    /// Whether the mats are shown side by side: there may be one left alone meanwhile.
    pub(super) fn is_comparing(&self, session: &PlanSession) -> bool {
        self.comparing && session.document().variants.len() > 1
    }

    /// The mat that the others are compared with.
    pub(super) fn reference(&self, session: &PlanSession) -> VariantId {
        let document = session.document();
        self.pinned.filter(|id| document.variant(*id).is_some()).unwrap_or(document.chosen)
    }
}

/// Shows the strip; of a plan with one mat, only the way to a second one.
pub(super) fn strip(ui: &mut Ui, mats: &mut Mats, scene: &Scene<'_>, requests: &mut Requests) {
    let session = scene.session;
    let Some(front) = session.variant().map(|front| front.id) else { return };
    let several = session.document().variants.len() > 1;
    let fill = theme::palette(ui).panel;
    // Of one mat, the least: the board needs the room.
    let margin = egui::Margin::symmetric(12, if several { 4 } else { 1 });
    let row = if several { theme::ROW } else { 22.0 };
    let frame = egui::Frame::new().fill(fill).inner_margin(margin);
    Panel::bottom("mats").resizable(false).frame(frame).show(ui, |ui| {
        ui.push_id(scene.id, |ui| {
            ui.horizontal(|ui| {
                ui.set_min_height(row);
                match mats.doing.clone() {
                    Some(doing) => typed(ui, mats, scene, &doing, requests),
                    None => buttons(ui, mats, scene, front, requests),
                }
            });
            if several {
                pictures(ui, mats, scene, front, requests);
            }
        });
    });
}

/// What can be done with the mat in front.
fn buttons(
    ui: &mut Ui,
    mats: &mut Mats,
    scene: &Scene<'_>,
    front: VariantId,
    requests: &mut Requests,
) {
    let document = scene.session.document();
    let several = document.variants.len() > 1;
    ui.label(quiet(ui, if several { "Mats" } else { "One mat" }));
    let words = "Another like this";
    let add = if several { ui.button(words) } else { ui.small_button(words) };
    let add = add.on_hover_text(
        "A second mat for this picture, the same to begin with: change it, then compare both",
    );
    if add.clicked() {
        requests.actions.extend(another(scene.session, front).map(Action::Run));
    }
    if !several {
        return;
    }
    let compare = AppCommand::Compare;
    let hint = compare.shortcut().map_or_else(String::new, |key| {
        format!("{} ({})", compare.hint(), ui.ctx().format_shortcut(&key))
    });
    if ui.button("Compare").on_hover_text(hint).clicked() {
        requests.actions.push(Action::Do(compare));
    }
    if ui.button("Rename…").on_hover_text("Rename the mat in front (F2)").clicked() {
        mats.begin(Doing::Renaming(front));
    }
    let remove = ui.button("Remove").on_hover_text("Take the mat in front out of the plan");
    if remove.clicked() {
        requests.run(Command::RemoveMat(front));
    }
    ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
        let made = document.chosen == front && document.choice.is_some();
        let words = if made { "Chosen" } else { "Choose…" };
        let hint = "The one that is made: the bench, printouts, cutting and editions take it";
        if ui.add_enabled(!made, egui::Button::new(words)).on_hover_text(hint).clicked() {
            mats.begin(Doing::Choosing(front, String::new()));
        }
    });
}

/// The command that adds another mat like one there is.
pub(super) fn another(session: &PlanSession, of: VariantId) -> Option<Command> {
    let document = session.kept();
    copy_mat(document, of, &free_name(document))
}

/// A new name, or the client's words.
fn typed(
    ui: &mut Ui,
    mats: &mut Mats,
    scene: &Scene<'_>,
    doing: &Doing,
    requests: &mut Requests,
) {
    let document = scene.session.document();
    let (Doing::Renaming(id) | Doing::Choosing(id, _)) = doing;
    let Some(variant) = document.variant(*id) else {
        mats.doing = None;
        return;
    };
    let cancelled = ui.input(|input| input.key_pressed(Key::Escape));
    let done = |ui: &Ui, mats: &mut Mats, id| {
        // What ended the typing is no key for the mat that has the focus then.
        ui.input_mut(|input| input.consume_key(Modifiers::NONE, Key::Enter));
        mats.doing = None;
        mats.focus = Some(id);
    };
    match doing.clone() {
        Doing::Renaming(id) => {
            ui.label(quiet(ui, "Name"));
            let field = ui.make_persistent_id(("text", "Name of the mat"));
            if std::mem::take(&mut mats.fresh) {
                ui.memory_mut(|memory| memory.request_focus(field));
            }
            let name = text(ui, "Name of the mat", &variant.name, "", 180.0);
            if let Some(name) = name.filter(|name| *name != variant.name) {
                requests.run(Command::RenameMat(id, name));
                done(ui, mats, id);
            }
            if ui.button("Done").clicked() || cancelled {
                done(ui, mats, id);
            }
        }
        Doing::Choosing(id, mut words) => {
            ui.label(quiet(ui, &format!("“{}”: the client’s words", variant.name)));
            let room = (ui.available_width() - 150.0).max(60.0);
            let field = egui::TextEdit::singleline(&mut words).desired_width(room);
            let field = ui.add(field.hint_text("may be left empty"));
            field.widget_info(|| {
                egui::WidgetInfo::labeled(egui::Role::TextInput, true, "The client’s words")
            });
            let entered = field.lost_focus() && ui.input(|input| input.key_pressed(Key::Enter));
            if std::mem::take(&mut mats.fresh) {
                field.request_focus();
            }
            let choose = ui.button("Choose").on_hover_text("With today’s date (Enter)");
            if entered || choose.clicked() {
                let when = dates::today().to_string();
                let words = words.trim().to_owned();
                requests.run(Command::Choose(id, Some(Choice { when, words })));
                done(ui, mats, id);
            } else if cancelled || ui.button("Cancel").clicked() {
                done(ui, mats, id);
            } else {
                mats.doing = Some(Doing::Choosing(id, words));
            }
        }
    }
}

/// The small pictures.
fn pictures(
    ui: &mut Ui,
    mats: &mut Mats,
    scene: &Scene<'_>,
    front: VariantId,
    requests: &mut Requests,
) {
    let session = scene.session;
    let framed = scene.shows.frame;
    let pieces: Vec<Piece<'_>> =
        session.mats().map(|(variant, derived)| Piece { variant, derived, framed }).collect();
    let reaches: Vec<_> = pieces.iter().map(Piece::reach).collect();
    let widest = reaches.iter().map(|one| one.width()).fold(1.0, f32::max);
    let scale = scale_in_row(&reaches, vec2(f32::INFINITY, PICTURE), 0.0, 0.0);
    let scale = scale.min((PLACE - 8.0) / widest);
    let up = reaches.iter().map(|one| one.up).fold(1.0, f32::max) * scale;
    let down = reaches.iter().map(|one| one.down).fold(1.0, f32::max) * scale;
    ScrollArea::horizontal().id_salt("mats").auto_shrink([false, true]).show(ui, |ui| {
        ui.horizontal(|ui| {
            ui.spacing_mut().item_spacing.x = 4.0;
            let mut places = Vec::with_capacity(pieces.len());
            for (piece, reach) in pieces.iter().zip(&reaches) {
                let size = vec2(PLACE, up + down + 26.0);
                let (rect, _) = ui.allocate_exact_size(size, Sense::hover());
                let id = ui.make_persistent_id(("mat", piece.variant.id.0));
                let response = ui.interact(rect, id, Sense::click_and_drag());
                let at = egui::pos2(
                    rect.center().x + (reach.left - reach.right) * scale / 2.0,
                    rect.top() + 4.0 + up,
                );
                place(ui, scene, piece, (rect, &response), piece.variant.id == front);
                piece.paint(&ui.painter_at(rect), (at, scale), scene.shows, scene.pictures);
                if mats.focus == Some(piece.variant.id) {
                    mats.focus = None;
                    response.request_focus();
                }
                places.push((piece.variant.id, rect, response));
            }
            hands(ui, mats, &places, front, requests);
        });
    });
}
