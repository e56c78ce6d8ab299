//! The parts that panels are put together from.

mod choice;
mod folder_field;
mod hint;
mod length_field;
mod list;
mod lock;
mod main_button;
mod opening;
mod picture;
pub mod regions;
mod rows;
mod side_panel;
mod sides_field;
mod text_field;
mod typing;

pub use choice::{choice, entry};
pub use folder_field::folder_row;
pub use hint::{Hint, hinted, measured, with_row_hint};
pub use length_field::LengthField;
pub use list::{Entry, list, list_beside_colour, pick};
pub use lock::lock;
pub use main_button::main_button;
pub use opening::opening;
pub use picture::Picture;
pub use rows::{
    asked, field_width, fitted, group, heading, icon_button, label_column, labelled, note,
    pair, quiet, row, severity_icon,
};
pub use side_panel::SidePanel;
pub use sides_field::{SidesEvent, SidesField, chevron};
pub use text_field::{checked, text};
pub use typing::{is_typing, select_all, tell_typing};
