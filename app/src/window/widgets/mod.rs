//! The parts that panels are put together from.

mod choice;
mod folder_field;
mod length_field;
mod lock;
mod main_button;
mod opening;
pub mod regions;
mod rows;
mod side_panel;
mod text_field;

pub use choice::{choice, entry, pick};
pub use folder_field::folder_row;
pub use length_field::{
    FieldEvent, LengthField, is_typing, parse_problem, select_all, tell_typing,
};
pub use lock::lock;
pub use main_button::main_button;
pub use opening::opening;
pub use rows::{
    field_width, fitted, group, heading, icon_button, labelled, note, pair, quiet, row,
    severity_icon,
};
pub use side_panel::{SidePanel, judged};
pub use text_field::text;
