//! Asks for a folder or a file by the system's own dialog. Each waits for the person: never
//! called in a frame.

use std::path::{Path, PathBuf};

/// Whether this system can show dialogs at all: on Linux they come over the session's bus.
/// Where there is none, the program asks for a place to be typed.
pub fn is_there() -> bool {
    if !cfg!(target_os = "linux") {
        return true;
    }
    let set = |name: &str| std::env::var_os(name).filter(|value| !value.is_empty());
    let bus = set("XDG_RUNTIME_DIR").map(|folder| PathBuf::from(folder).join("bus"));
    set("DBUS_SESSION_BUS_ADDRESS").is_some() || bus.is_some_and(|bus| bus.exists())
}

/// The folder that is chosen, or `None`; `near` is where the dialog begins.
pub fn folder(title: &str, near: Option<&Path>) -> Option<PathBuf> {
    let chosen = pollster::block_on(begun(title, near).pick_folder());
    chosen.map(|folder| folder.path().to_owned())
}

/// The file that is chosen, or `None`; `near` is where the dialog begins.
pub fn file(title: &str, near: Option<&Path>) -> Option<PathBuf> {
    let chosen = pollster::block_on(begun(title, near).pick_file());
    chosen.map(|file| file.path().to_owned())
}

fn begun(title: &str, near: Option<&Path>) -> rfd::AsyncFileDialog {
    // A folder that is not there yet is made when it is written to.
    let near = near.and_then(|near| near.ancestors().find(|path| path.is_dir()));
    let dialog = rfd::AsyncFileDialog::new().set_title(title);
    match near {
        Some(near) => dialog.set_directory(near),
        None => dialog,
    }
}
