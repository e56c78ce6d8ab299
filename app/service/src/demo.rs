//! The demo: a print of an invented studio, made by this project's own code.

use std::path::PathBuf;

use crate::storage::{Storage, write_whole};

const PICTURE: &[u8] = include_bytes!("../../../assets/demo/slack-water.jpg");

/// Where the demo's picture lies; put there if it is not.
///
/// # Errors
/// Says why it could not be put there, and what to do.
pub fn picture(storage: &Storage) -> Result<PathBuf, String> {
    let path = storage
        .file("demo/slack-water.jpg")
        .unwrap_or_else(|| std::env::temp_dir().join("sightedge-demo/slack-water.jpg"));
    if std::fs::metadata(&path)
        .is_ok_and(|facts| u64::try_from(PICTURE.len()) == Ok(facts.len()))
    {
        return Ok(path);
    }
    write_whole(&path, PICTURE).map_err(|error| {
        format!(
            "The demo's picture could not be put at {}: {error}. Open a picture of your own \
             instead.",
            path.display()
        )
    })?;
    Ok(path)
}
