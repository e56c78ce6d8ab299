//! What a screen asks for in a frame.

use egui::Ui;
use sightedge_core::command::Command;
use sightedge_core::geometry::Size;
use sightedge_core::length::Length;

use crate::window::context::View;
use crate::window::request::Action;
use crate::window::widgets::{self, LengthField, SidesEvent, SidesField};
use crate::window::workers::Keep;

/// What panels ask for in a frame, and what they have to say.
#[derive(Debug, Default)]
pub struct Requests {
    /// Changes.
    pub actions: Vec<Action>,
    /// A sentence for the line at the foot.
    pub said: Option<String>,
}

impl Requests {
    /// Asks for a change, as one undo step.
    pub fn run(&mut self, command: Command) {
        self.actions.push(Action::Run(command));
    }

    /// Asks for something to be kept between sessions.
    pub fn keep(&mut self, keep: Keep) {
        self.actions.push(Action::Keep(keep));
    }

    /// A field for a length; `set` makes the command.
    pub fn length(
        &mut self,
        ui: &mut Ui,
        field: LengthField<'_>,
        set: impl FnOnce(Length) -> Command,
    ) -> egui::Response {
        let (response, typed) = field.show(ui);
        if let Some(length) = typed {
            self.run(set(length));
        }
        response
    }

    /// A width and a height in one row.
    pub fn size(
        &mut self,
        ui: &mut Ui,
        name: &str,
        size: Size,
        view: &View<'_>,
        set: impl Fn(Size) -> Command,
    ) {
        let width = widgets::field_width(ui, 2);
        let unit = view.unit();
        let (across, down) = (format!("{name} width"), format!("{name} height"));
        self.length(ui, LengthField::new(&across, size.width, unit).width(width), |width| {
            set(Size::new(width, size.height))
        });
        self.length(ui, LengthField::new(&down, size.height, unit).width(width), |height| {
            set(Size::new(size.width, height))
        });
    }

    /// One field for four sides, which opens into four; `set` makes the command from what was
    /// typed.
    pub fn sides(
        &mut self,
        ui: &mut Ui,
        field: SidesField<'_>,
        set: impl FnOnce(SidesEvent) -> Command,
    ) {
        if let Some(typed) = field.show(ui) {
            self.run(set(typed));
        }
    }
}
