//! How the window meets the picture: reveal, overlap, or a window in hand.

use egui::Ui;
use sightedge_core::command::Command;
use sightedge_core::geometry::Size;
use sightedge_core::spec::{BoardBy, InHand, Placement, WindowBy, margins};

use crate::window::context::{Requests, View};
use crate::window::widgets::{LengthField, choice, field_width, heading, row};

#[derive(Clone, Copy, PartialEq)]
enum By {
    Reveal,
    Overlap,
    InHand,
}

pub(super) fn show(ui: &mut Ui, view: &View<'_>, requests: &mut Requests) {
    let id = ui.make_persistent_id("window by overlap");
    let by_overlap: bool = ui.data(|data| data.get_temp(id)).unwrap_or_default();
    let by = match view.opening.window_by {
        WindowBy::InHand(_) => By::InHand,
        WindowBy::Reveal(_) if by_overlap => By::Overlap,
        WindowBy::Reveal(_) => By::Reveal,
    };
    let given = |ui: &mut Ui, requests: &mut Requests| {
        let options =
            [(By::Reveal, "reveal"), (By::Overlap, "overlap"), (By::InHand, "in hand")];
        let width = field_width(ui, 1);
        if let Some(picked) = choice(ui, "Window given by", Some(by), &options, width) {
            ui.data_mut(|data| data.insert_temp(id, picked == By::Overlap));
            exchange(view, by, picked, requests);
        }
    };
    heading(ui, "The window", |ui| given(ui, requests));
    match view.opening.window_by {
        WindowBy::Reveal(reveal) if by == By::Overlap => {
            let overlap = view.window.overlap;
            let margin = margins(view.work.sheet, view.work.image);
            requests.sides(ui, "Overlap", overlap, view, true, |side, length| {
                let reveal = reveal.with(side, margin.of(side) - length);
                Command::SetWindowBy(view.variant, view.opening.id, WindowBy::Reveal(reveal))
            });
        }
        WindowBy::Reveal(reveal) => {
            requests.sides(ui, "Reveal", reveal, view, true, |side, length| {
                let reveal = reveal.with(side, length);
                Command::SetWindowBy(view.variant, view.opening.id, WindowBy::Reveal(reveal))
            });
        }
        WindowBy::InHand(hand) => in_hand(ui, view, hand, requests),
    }
}

fn in_hand(ui: &mut Ui, view: &View<'_>, hand: InHand, requests: &mut Requests) {
    let set =
        |hand| Command::SetWindowBy(view.variant, view.opening.id, WindowBy::InHand(hand));
    row(ui, "sight size", |ui| {
        requests.size(ui, "Window", hand.sight, view, |sight| set(InHand { sight, ..hand }));
    });
    row(ui, "overlap", |ui| {
        let width = field_width(ui, 2);
        let unit = view.unit();
        let left = LengthField::new("Overlap, left", hand.overlap_left, unit).width(width);
        requests
            .length(ui, left, |overlap_left| set(InHand { overlap_left, ..hand }))
            .on_hover_text("How far the mat lies on the sheet at the left");
        let top = LengthField::new("Overlap, top", hand.overlap_top, unit).width(width);
        requests
            .length(ui, top, |overlap_top| set(InHand { overlap_top, ..hand }))
            .on_hover_text("How far the mat lies on the sheet at the top");
    });
    crate::window::widgets::note(ui, "At the left and at the top; the sheet gives the rest.");
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
            requests.run(Command::Together("window in hand", commands));
        }
        _ => {}
    }
}
