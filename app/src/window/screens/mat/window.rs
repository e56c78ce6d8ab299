//! How the window meets the picture: reveal, overlap, or a window that is cut already.

use egui::Ui;
use sightedge_core::command::Command;
use sightedge_core::geometry::Size;
use sightedge_core::spec::{BoardBy, InHand, Placement, WindowBy, margins};

use crate::window::context::{Requests, View};
use crate::window::widgets::{
    Hint, LengthField, Picture, SidesField, asked, choice, field_width, heading, hinted, note,
};

#[derive(Clone, Copy, PartialEq)]
enum By {
    Reveal,
    Overlap,
    InHand,
}

const BY: &str = "Reveal: how much paper shows round the image. Overlap: how far the mat covers \
                  the sheet. Ready-cut: the window is cut already, and you give its size.";
const REVEAL: &str = "The reveal is the paper that shows between the image and the window’s edge \
                      (the sight edge). Less than zero: the mat covers the image.";
const OVERLAP: &str = "How far the mat covers the sheet’s edge, and holds it: 1/8 in or 3 mm is \
                       usual.";

pub(super) fn show(ui: &mut Ui, view: &View<'_>, requests: &mut Requests) {
    let id = ui.make_persistent_id("window by overlap");
    let by_overlap: bool = ui.data(|data| data.get_temp(id)).unwrap_or_default();
    let by = match view.opening.window_by {
        WindowBy::InHand(_) => By::InHand,
        WindowBy::Reveal(_) if by_overlap => By::Overlap,
        WindowBy::Reveal(_) => By::Reveal,
    };
    heading(ui, "The window", |ui| {
        let options =
            [(By::Reveal, "reveal"), (By::Overlap, "overlap"), (By::InHand, "ready-cut")];
        let width = field_width(ui, 1);
        let hint = Hint::new(BY).picture(Picture::Reveal);
        let picked =
            hinted(ui, &hint, |ui| choice(ui, "Window given by", Some(by), &options, width));
        if let Some(picked) = picked {
            ui.data_mut(|data| data.insert_temp(id, picked == By::Overlap));
            exchange(view, by, picked, requests);
        }
    });
    let to =
        |reveal| Command::SetWindowBy(view.variant, view.opening.id, WindowBy::Reveal(reveal));
    let (unit, enabled, leaves) = (view.unit(), true, None);
    match view.opening.window_by {
        WindowBy::Reveal(_) if by == By::Overlap => {
            let sides = view.window.overlap;
            let margin = margins(view.work.sheet, view.work.image);
            let hint = Hint::new(OVERLAP).picture(Picture::Overlap);
            let (label, name) = ("overlap", "Overlap");
            let field = SidesField { label, name, sides, unit, enabled, hint: &hint, leaves };
            requests.sides(ui, field, |typed| to(margin.minus(typed.applied(sides))));
        }
        WindowBy::Reveal(sides) => {
            let hint = Hint::new(REVEAL).picture(Picture::Reveal);
            let (label, name) = ("reveal", "Reveal");
            let field = SidesField { label, name, sides, unit, enabled, hint: &hint, leaves };
            requests.sides(ui, field, |typed| to(typed.applied(sides)));
        }
        WindowBy::InHand(hand) => in_hand(ui, view, hand, requests),
    }
}

fn in_hand(ui: &mut Ui, view: &View<'_>, hand: InHand, requests: &mut Requests) {
    let set =
        |hand| Command::SetWindowBy(view.variant, view.opening.id, WindowBy::InHand(hand));
    let hint = Hint::new(
        "Width and height of the window as it is cut, measured at the sight edge (the inner, \
         lower edge of the bevel)",
    );
    asked(ui, "sight size", &hint, |ui| {
        requests.size(ui, "Window", hand.sight, view, |sight| set(InHand { sight, ..hand }));
    });
    let hint = Hint::new("How far the mat covers the sheet at the left and at the top")
        .picture(Picture::Overlap);
    asked(ui, "overlap", &hint, |ui| {
        let width = field_width(ui, 2);
        let unit = view.unit();
        let left = LengthField::new("Overlap, left", hand.overlap_left, unit).width(width);
        requests.length(ui, left, |overlap_left| set(InHand { overlap_left, ..hand }));
        let top = LengthField::new("Overlap, top", hand.overlap_top, unit).width(width);
        requests.length(ui, top, |overlap_top| set(InHand { overlap_top, ..hand }));
    });
    note(ui, "Left and top, from the front; the other two follow from the sheet.");
}

/// Nothing moves: what is given changes, not where it lies.
fn exchange(view: &View<'_>, from: By, to: By, requests: &mut Requests) {
    let id = view.opening.id;
    match (from, to) {
        (By::InHand, _) => {
            let window_by = WindowBy::Reveal(view.window.reveal);
            requests.run(Command::SetWindowBy(view.variant, id, window_by));
        }
        (_, By::InHand) => {
            let sight = view.window.sight;
            let hand = WindowBy::InHand(InHand {
                sight: sight.size,
                overlap_left: view.window.overlap.left,
                overlap_top: view.window.overlap.top,
            });
            let mut commands = vec![Command::SetWindowBy(view.variant, id, hand)];
            if let BoardBy::Borders(_) = view.mat.board_by {
                let outer = view.derived.layout.exact.outer;
                let size = Size::new(outer.width, outer.height);
                let placement = Placement::Free { left: sight.left(), top: sight.top() };
                let board_by = BoardBy::Outer { size, placement };
                commands.push(Command::SetBoardBy(view.variant, board_by));
            }
            requests.run(Command::Together("ready-cut window", commands));
        }
        _ => {}
    }
}
