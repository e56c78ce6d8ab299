//! A field of words.

use egui::Ui;

use super::typing::Typing;

/// A field called `name`, showing `shown`, or `empty` where that is nothing; gives what was
/// typed, once it is kept.
pub fn text(ui: &mut Ui, name: &str, shown: &str, empty: &str, width: f32) -> Option<String> {
    checked(ui, name, shown, empty, width, |typed| Ok(typed.to_owned()))
}

/// The same for what is to be read: gives what `read` made of it; what cannot be read stays in
/// the field with the reason that `read` gives.
pub fn checked<T>(
    ui: &mut Ui,
    name: &str,
    shown: &str,
    empty: &str,
    width: f32,
    read: impl Fn(&str) -> Result<T, String>,
) -> Option<T> {
    let id = ui.make_persistent_id(("text", name));
    let typing = Typing { id, name, shown, empty, width, hint: None };
    typing.show(ui, |_| "", read).1
}
