//! The demo: a print of an invented studio, made by this project's own code.

use std::path::PathBuf;

use crate::storage::Storage;

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
    let put = || -> std::io::Result<()> {
        if let Some(folder) = path.parent() {
            std::fs::create_dir_all(folder)?;
        }
        std::fs::write(&path, PICTURE)
    };
    put().map_err(|error| {
        format!(
            "The demo's picture could not be put at {}: {error}. Open a picture of your own \
             instead.",
            path.display()
        )
    })?;
    Ok(path)
}
