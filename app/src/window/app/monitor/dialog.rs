//! The screen: which colour profile it has, and how large its pixels are.

use std::path::Path;

use egui::{Context, Frame, Id, Modal, RichText, Ui};
use sightedge_service::monitors::{
    self, ASSUMED, Colours, Monitor, NO_SCALE, Origin, Scale, Thing,
};

use super::super::App;
use super::outline::{Outline, Shown};
use crate::window::question::Question;
use crate::window::theme;
use crate::window::widgets::{group, main_button, quiet};
use crate::window::workers::Purpose;

/// The dialog while it is open.
#[derive(Clone, Debug, Default)]
pub(in crate::window::app) struct Dialog {
    /// What is laid on the screen, while it is.
    outline: Option<Outline>,
}

/// What was pressed in it.
enum Asked {
    Close,
    Choose,
    NoFile,
    Keep(Outline),
    PutDown,
    Forget,
}

/// The dialog's width where nothing is laid on the screen, in points.
const WIDE: f32 = 600.0;
/// What stands above and below a thing in it, in points.
const ROUND: f32 = 240.0;
/// What is left beside it at least, in points.
const BESIDE: f32 = 40.0;

impl App {
    /// Opens the dialog, to begin with what is not known yet.
    pub(in crate::window::app) fn open_screen(&mut self) {
        self.screen = Some(Dialog::default());
    }

    /// Shows the dialog while it is open.
    pub(in crate::window::app) fn screen_dialog(&mut self, context: &Context) {
        // A question comes before it.
        let Some(mut dialog) = self.screen.clone().filter(|_| self.asking.is_empty()) else {
            return;
        };
        let monitor = self.monitor(context).cloned();
        let scale = monitor.as_ref().and_then(|one| one.scale(&self.settings.monitors));
        let others: Vec<&Monitor> = self
            .monitors
            .iter()
            .filter(|other| Some(&other.output) != monitor.as_ref().map(|one| &one.output))
            .collect();
        let mut asked = None;
        let room = context.content_rect().size() - egui::vec2(2.0 * BESIDE, 2.0 * BESIDE);
        let frame = Frame::popup(&context.global_style()).inner_margin(16.0);
        let modal = Modal::new(Id::unique("screen")).frame(frame).show(context, |ui| {
            let wide = if dialog.outline.is_some() { room.x } else { WIDE.min(room.x) };
            ui.set_width(wide);
            ui.label(RichText::new("Screen").family(theme::strong()).size(theme::HEADING));
            let Some(monitor) = &monitor else {
                ui.label("The system does not say which screen this window is on.");
                asked = ui.button("Close").clicked().then_some(Asked::Close);
                return;
            };
            ui.label(monitor.title());
            asked = match &mut dialog.outline {
                Some(outline) => measuring(ui, outline, room.y - ROUND),
                None => settled(ui, monitor, scale, &others, &mut dialog),
            };
        });
        // Esc puts down what is laid on the screen, then closes the dialog.
        if modal.should_close() && dialog.outline.take().is_none() {
            asked = Some(Asked::Close);
        }
        self.screen = Some(dialog);
        let Some(monitor) = monitor else {
            if asked.is_some() {
                self.screen = None;
            }
            return;
        };
        if let Some(asked) = asked {
            self.screen_asked(&monitor, asked);
        }
    }

    fn screen_asked(&mut self, monitor: &Monitor, asked: Asked) {
        let key = monitor.key();
        let all = &mut self.settings.monitors;
        match asked {
            Asked::Close => self.screen = None,
            Asked::PutDown => self.screen = Some(Dialog::default()),
            Asked::Choose => {
                let near = monitors::kept(all, &key).and_then(|one| one.profile.clone());
                self.jobs.ask(Purpose::Profile, near);
            }
            Asked::NoFile => monitors::keep(all, &key, |one| one.profile = None),
            Asked::Forget => monitors::keep(all, &key, |one| one.measured = None),
            Asked::Keep(outline) => {
                let measured = outline.measured(monitor.pixels.0);
                monitors::keep(all, &key, |one| one.measured = Some(measured));
                self.screen = Some(Dialog::default());
            }
        }
    }

    /// Takes a file as the colour profile of the screen that the window is on.
    pub(in crate::window::app) fn use_profile(&mut self, context: &Context, path: &Path) {
        let Some(key) = self.monitor(context).map(Monitor::key) else { return };
        match monitors::try_profile(path) {
            Ok(_) => monitors::keep(&mut self.settings.monitors, &key, |one| {
                one.profile = Some(path.to_owned());
            }),
            Err(why) => {
                let words = format!("{}: {why}.", path.display());
                self.asking.push(Question::tell("This profile cannot be used", &words));
            }
        }
    }
}

/// What is known, and what can be done about it.
fn settled(
    ui: &mut Ui,
    monitor: &Monitor,
    scale: Option<Scale>,
    others: &[&Monitor],
    dialog: &mut Dialog,
) -> Option<Asked> {
    let mut asked = None;
    let own = matches!(
        monitor.colours,
        Colours::Profile(Origin::Own(_), _) | Colours::Refused(Origin::Own(_), _)
    );
    group(ui, "Colours", |ui| {
        ui.label(monitor.colours.words());
        ui.horizontal(|ui| {
            let choose = ui.button("Use a profile of your own…");
            let choose =
                choose.on_hover_text("An ICC file, as a measuring instrument writes it");
            if choose.clicked() {
                asked = Some(Asked::Choose);
            }
            if own && ui.button("Use no file of your own").clicked() {
                asked = Some(Asked::NoFile);
            }
        });
    });
    group(ui, "True size", |ui| {
        ui.label(scale.map_or_else(|| NO_SCALE.to_owned(), Scale::words));
        ui.label(quiet(ui, "Hold one of these on the screen and fit a shape to it:"));
        let room = ui.ctx().content_rect().width() - 2.0 * BESIDE;
        ui.horizontal_wrapped(|ui| {
            for thing in Thing::ALL {
                let outline = Outline::new(ui, thing, scale);
                let fits = outline.points(ui) <= room;
                let button = ui.add_enabled(fits, egui::Button::new(thing.label()));
                let button = button.on_disabled_hover_text("It is wider than this window");
                if button.clicked() {
                    dialog.outline = Some(outline);
                }
            }
        });
        let measured = matches!(scale, Some(Scale::Measured(..)));
        if measured && ui.button("Forget this measure").clicked() {
            asked = Some(Asked::Forget);
        }
    });
    if !others.is_empty() {
        group(ui, "Other screens", |ui| {
            for other in others {
                ui.label(other.title());
                ui.label(quiet(ui, &other.colours.words()));
            }
            ui.label(quiet(ui, "To change one of them, move this window there."));
        });
    }
    ui.add_space(theme::GROUP - theme::GAP);
    if ui.button("Close").clicked() {
        asked = Some(Asked::Close);
    }
    asked
}

/// A shape is fitted to a thing on the screen.
fn measuring(ui: &mut Ui, outline: &mut Outline, high: f32) -> Option<Asked> {
    ui.label(outline.thing().advice());
    ui.label(quiet(
        ui,
        "Drag the right edge until it lies under the edge of the thing. Arrow keys move it by a \
         pixel, with Shift by ten. Take care not to press on the screen.",
    ));
    ui.add_space(theme::GAP);
    let Shown { kept } = outline.show(ui, high);
    ui.add_space(theme::GAP);
    ui.label(outline.words());
    ui.label(quiet(ui, ASSUMED));
    let mut asked = kept.then(|| Asked::Keep(outline.clone()));
    ui.horizontal(|ui| {
        let (_, pressed) = main_button(ui, "Keep this size", egui::Vec2::ZERO, None);
        if pressed {
            asked = Some(Asked::Keep(outline.clone()));
        }
        if ui.button("Cancel").clicked() {
            asked = Some(Asked::PutDown);
        }
    });
    asked
}
