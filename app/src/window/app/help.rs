//! The help: the keys and drags of the place in front, and the words of the job.

use egui::{Context, Frame, Id, Modal, RichText, ScrollArea, Ui, vec2};

use super::App;
use crate::window::canvas::for_keyboard;
use crate::window::gesture::Gesture;
use crate::window::help::{self, TERMS};
use crate::window::request::{AppCommand, Screen};
use crate::window::theme;
use crate::window::widgets::{choice, quiet};

/// What of the help is in front.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub(super) enum Page {
    /// Keys and drags.
    #[default]
    Keys,
    /// Words.
    Words,
}

/// The widest that the help becomes, in points.
const WIDE: f32 = 760.0;

impl App {
    /// Shows the help while it is open.
    pub(super) fn help(&mut self, context: &Context) {
        let Some(mut page) = self.help else { return };
        let room = context.content_rect().size();
        let size = vec2(WIDE.min(room.x - 80.0), room.y - 120.0);
        let gestures = self.screens.gestures(self.room);
        let place = self.room;
        let mut close = false;
        let frame = Frame::popup(&context.global_style()).inner_margin(16.0);
        let modal = Modal::new(Id::unique("help")).frame(frame).show(context, |ui| {
            ui.set_width(size.x);
            ui.label(RichText::new("Help").family(theme::strong()).size(theme::HEADING));
            let pages = [(Page::Keys, "Keys and drags"), (Page::Words, "Words of the job")];
            if let Some(other) = choice(ui, "Help", Some(page), &pages, 320.0_f32.min(size.x)) {
                page = other;
            }
            ui.add_space(8.0);
            let high = (size.y - 120.0).max(80.0);
            let area = ScrollArea::vertical().id_salt(page == Page::Keys);
            area.auto_shrink([false, true]).min_scrolled_height(high).max_height(high).show(
                ui,
                |ui| {
                    ui.set_width(ui.available_width() - 12.0);
                    by_keys(ui);
                    match page {
                        Page::Keys => keys(ui, place, gestures),
                        Page::Words => words(ui),
                    }
                },
            );
            ui.add_space(8.0);
            close = ui.button("Close help").clicked();
        });
        self.help = (!close && !modal.should_close()).then_some(page);
    }
}

/// Page keys scroll, and arrows a little, as the wheel does.
fn by_keys(ui: &Ui) {
    use egui::Key;
    let page = ui.clip_rect().height() * 0.9;
    for (key, by) in [
        (Key::PageDown, -page),
        (Key::PageUp, page),
        (Key::ArrowDown, -40.0),
        (Key::ArrowUp, 40.0),
        (Key::End, -100_000.0),
        (Key::Home, 100_000.0),
    ] {
        if ui.input_mut(|input| input.consume_key(egui::Modifiers::NONE, key)) {
            ui.scroll_with_delta(vec2(0.0, by));
        }
    }
}

fn title(ui: &mut Ui, text: &str) {
    ui.add_space(8.0);
    ui.label(RichText::new(text).family(theme::strong()));
    ui.add_space(2.0);
}

/// A key or a drag, and what it does, in two columns.
fn line(ui: &mut Ui, how: &str, does: &str) {
    let column = (ui.available_width() * 0.36).min(250.0);
    ui.horizontal_top(|ui| {
        ui.allocate_ui_with_layout(
            vec2(column, 0.0),
            egui::Layout::top_down(egui::Align::LEFT),
            |ui| {
                ui.set_width(column);
                ui.add(egui::Label::new(how).wrap());
            },
        );
        ui.vertical(|ui| ui.add(egui::Label::new(quiet(ui, does)).wrap()));
    });
}

fn keys(ui: &mut Ui, place: Screen, gestures: &[Gesture]) {
    title(ui, place.label());
    for gesture in gestures {
        let how = for_keyboard(ui.ctx(), gesture.how);
        let how = if gesture.held { format!("{how} while dragging") } else { how };
        line(ui, &how, gesture.does);
    }
    title(ui, "Fields and lists");
    for (how, does) in [
        ("Enter, Tab or a click elsewhere", "keeps what was typed; Esc cancels it"),
        ("13 1/2, 13.5, 13.5 in, 343 mm", "all are lengths; sums too: 8 + 2 x 1/4"),
        ("Arrow keys in a list", "choose at once; Enter opens the list"),
        ("Tab, Shift+Tab", "go to the next or the previous field"),
    ] {
        line(ui, how, does);
    }
    title(ui, "Everywhere");
    let places = Screen::ALL.into_iter().map(AppCommand::Go);
    for command in AppCommand::KEYED.into_iter().chain(places) {
        let Some(shortcut) = command.shortcut() else { continue };
        line(ui, &ui.ctx().format_shortcut(&shortcut), command.hint());
    }
    let main = ui.ctx().format_shortcut(&AppCommand::MAIN);
    line(ui, &main, "Press the main button of the place");
    title(ui, "Marks of the checks");
    help::severities(ui);
    title(ui, "Prints outside the numbers");
    help::abbreviations(ui);
}

fn words(ui: &mut Ui) {
    let columns = if ui.available_width() >= 640.0 { 2 } else { 1 };
    for pair in TERMS.chunks(columns) {
        ui.columns(columns, |columns| {
            for (ui, term) in columns.iter_mut().zip(pair) {
                ui.horizontal_top(|ui| {
                    let picture = help::show(ui, term.picture);
                    picture.widget_info(|| {
                        egui::WidgetInfo::labeled(egui::Role::Image, true, term.title())
                    });
                    ui.vertical(|ui| {
                        ui.label(RichText::new(term.title()).family(theme::strong()));
                        ui.add(egui::Label::new(quiet(ui, term.means())).wrap());
                    });
                });
            }
        });
        ui.add_space(8.0);
    }
}
