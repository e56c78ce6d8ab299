//! Asking for a folder by the system's own dialog.

use std::path::{Path, PathBuf};

/// The folder that is chosen, or `None`; `near` is where the dialog begins. Waits for the
/// person: never called in a frame.
pub fn ask(title: &str, near: Option<&Path>) -> Option<PathBuf> {
    // A folder that is not there yet is made when it is written to.
    let near = near.and_then(|near| near.ancestors().find(|path| path.is_dir()));
    let mut dialog = rfd::AsyncFileDialog::new().set_title(title);
    if let Some(near) = near {
        dialog = dialog.set_directory(near);
    }
    let chosen = pollster::block_on(dialog.pick_folder());
    chosen.map(|folder| folder.path().to_owned())
}
