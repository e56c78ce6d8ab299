//! The client's view: the piece alone on a quiet wall, in a window of its own that follows what is
//! done in the maker's.

use egui::{
    Align2, Color32, Context, FontId, Key, Ui, ViewportBuilder, ViewportClass, ViewportId,
};

use super::App;
use crate::window::canvas::Shows;
use crate::window::canvas::piece::{Piece, scale_in_row};
use crate::window::theme;

/// The client's view while it is open.
#[derive(Clone, Debug)]
pub(super) struct ClientView {
    framed: bool,
    /// The monitor that it fills, counted from 0.
    monitor: usize,
    /// Until when the list of its keys is shown.
    keys_until: f64,
}

/// How long the list of keys stays up, in seconds.
const KEYS_SHOWN: f64 = 6.0;
/// A step lighter or darker, of 255.
const STEP: u8 = 12;
/// How much of the window the piece fills, across or down.
const SHARE: f32 = 0.8;
/// What the keys do.
const KEYS: &str = "Left, Right: previous, next mat    F: frame    Up, Down: wall lighter, darker    \
                    C: the wall’s colour    M: another screen    Esc: close";

/// What is asked for in the client's view.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
enum Asked {
    Close,
    Mat(bool),
}

impl App {
    /// Opens the client's view, or closes it.
    pub(super) fn client_view(&mut self, context: &Context) {
        let now = context.input(|input| input.time);
        self.client = match self.client {
            Some(_) => None,
            // The second monitor, where there is one: the maker's tools stay on the first.
            None => Some(ClientView { framed: true, monitor: 1, keys_until: now + KEYS_SHOWN }),
        };
    }

    /// Shows the client's view, where it is open.
    pub(super) fn client(&mut self, context: &Context) {
        let Some(mut view) = self.client.clone() else { return };
        let builder = ViewportBuilder::default()
            .with_title("For the client")
            .with_inner_size([1100.0, 800.0])
            .with_fullscreen(true)
            .with_monitor(view.monitor);
        let id = ViewportId::from_hash_of("the client’s view");
        let mut asked = None;
        context.show_viewport_immediate(id, builder, |ui, class| {
            let closed = ui.ctx().input(|input| input.viewport().close_requested());
            asked = self.client_ui(ui, &mut view, class).or(closed.then_some(Asked::Close));
        });
        self.client = Some(view);
        match asked {
            Some(Asked::Close) => self.client = None,
            Some(Asked::Mat(next)) => {
                if let Some(open) = self.plans.get_mut(self.front) {
                    open.session.step_mat(next);
                }
                context.request_repaint();
            }
            None => {}
        }
    }

    fn client_ui(
        &mut self,
        ui: &mut Ui,
        view: &mut ClientView,
        class: ViewportClass,
    ) -> Option<Asked> {
        // Embedded in the maker's window it has that one's keys, which are the maker's then.
        let own = class != ViewportClass::EmbeddedWindow;
        let room =
            if own { ui.max_rect() } else { ui.allocate_space(egui::vec2(560.0, 400.0)).1 };
        // It may stand on another monitor than the maker's window.
        let display = self.display(ui.ctx());
        let wall = self.settings.wall;
        let painter = ui.painter_at(room);
        painter.rect_filled(room, 0.0, display.colour(wall));
        display.set(ui.ctx());
        let asked = own.then(|| self.client_keys(ui, view)).flatten();
        let Some(open) = self.plans.get(self.front) else {
            return asked.or(Some(Asked::Close));
        };
        let Some(front) = open.session.variant() else { return asked };
        let framed = view.framed;
        let pieces: Vec<Piece<'_>> = open
            .session
            .mats()
            .map(|(variant, derived)| Piece { variant, derived, framed })
            .collect();
        // One scale for all mats, the picture always in the same place.
        let reaches: Vec<_> = pieces.iter().map(Piece::reach).collect();
        let each =
            reaches.iter().map(|one| scale_in_row(&[*one], room.size() * SHARE, 0.0, 0.0));
        let scale = each.fold(f32::INFINITY, f32::min);
        let surround = wall.into_iter().max().unwrap_or_default();
        let shows = Shows {
            dimensions: false,
            hidden: false,
            corner: false,
            frame: framed,
            surround,
            magnifier: false,
            vision: self.vision,
        };
        if let Some(piece) = pieces.iter().find(|piece| piece.variant.id == front.id) {
            let pictures = self.textures.shown(open.id);
            piece.paint(&painter, (room.center(), scale), shows, &pictures);
        }
        let now = ui.input(|input| input.time);
        if now < view.keys_until && own {
            let dark = surround < 120;
            let ink = if dark { Color32::from_gray(220) } else { Color32::from_gray(40) };
            let at = room.center_bottom() - egui::vec2(0.0, 18.0);
            let letters = FontId::proportional(theme::BODY);
            painter.text(at, Align2::CENTER_BOTTOM, KEYS, letters, ink);
            ui.ctx().request_repaint_after(std::time::Duration::from_millis(250));
        }
        asked
    }

    fn client_keys(&mut self, ui: &mut Ui, view: &mut ClientView) -> Option<Asked> {
        let pressed: Vec<Key> = ui.input(|input| {
            let keys = input.events.iter().filter_map(|event| match event {
                egui::Event::Key { key, pressed: true, .. } => Some(*key),
                _ => None,
            });
            keys.collect()
        });
        let mut asked = None;
        for key in pressed {
            match key {
                Key::Escape | Key::F11 => asked = Some(Asked::Close),
                Key::ArrowRight | Key::PageDown | Key::Space => asked = Some(Asked::Mat(true)),
                Key::ArrowLeft | Key::PageUp => asked = Some(Asked::Mat(false)),
                Key::F => view.framed = !view.framed,
                Key::ArrowUp | Key::Plus => {
                    self.settings.wall =
                        self.settings.wall.map(|part| part.saturating_add(STEP));
                }
                Key::ArrowDown | Key::Minus => {
                    self.settings.wall =
                        self.settings.wall.map(|part| part.saturating_sub(STEP));
                }
                Key::C => {
                    let at = WALLS.iter().position(|wall| *wall == self.settings.wall);
                    let next = at.map_or(0, |at| (at + 1) % WALLS.len());
                    self.settings.wall = WALLS[next];
                }
                Key::M => view.monitor = (view.monitor + 1) % MONITORS,
                Key::F1 => view.keys_until = ui.input(|input| input.time) + KEYS_SHOWN,
                _ => {}
            }
        }
        asked
    }
}

/// No desk has more.
const MONITORS: usize = 4;

/// Colours of walls, one after the other: whites, greys, and a few of our own.
const WALLS: [[u8; 3]; 8] = [
    [236, 235, 231],
    [244, 239, 228],
    [206, 206, 204],
    [128, 128, 128],
    [60, 62, 66],
    [188, 199, 190],
    [160, 174, 188],
    [196, 168, 146],
];
