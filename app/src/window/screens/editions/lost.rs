//! A work's picture that is not where the record says: looked for by its name in a few near
//! folders, and taken only where its content is the same.

use std::path::{Path, PathBuf};

use sightedge_pictures::{CancelToken, content_hash};

/// More folders beside the picture's own are not looked into.
const MOST: usize = 64;

/// Where the picture is, or where it was looked for in vain.
pub(super) fn found(path: &Path, sha256: &str, homes: &[PathBuf]) -> Result<PathBuf, String> {
    if path.is_file() {
        return Ok(path.to_owned());
    }
    let Some(name) = path.file_name() else {
        return Err(format!("Picture not found: {} names no file.", path.display()));
    };
    let mut near = homes.to_vec();
    if let Some(home) = path.parent() {
        near.extend(below(home));
        if let Some(above) = home.parent() {
            near.push(above.to_owned());
            near.extend(below(above));
        }
    }
    let mut other = None;
    for folder in near.iter().take(MOST) {
        let here = folder.join(name);
        if !here.is_file() {
            continue;
        }
        let hash = content_hash(&here, &CancelToken::default());
        if hash.is_ok_and(|hash| hash.to_string() == sha256) {
            return Ok(here);
        }
        other = other.or(Some(here));
    }
    let mut words = format!("Picture not found at {}", path.display());
    match homes {
        [] => words.push_str(", nor under its name in the folders near it."),
        [home] => {
            words = format!("{words}, nor under its name near it and in {}.", home.display());
        }
        [home, ..] => {
            words = format!(
                "{words}, nor under its name near it, in {} and in the folders of {} other \
                 plans.",
                home.display(),
                homes.len() - 1
            );
        }
    }
    if let Some(other) = other {
        words = format!("{words} {} is another picture.", other.display());
    }
    words.push_str(" Put it back there, or correct the work.");
    Err(words)
}

fn below(folder: &Path) -> Vec<PathBuf> {
    let entries = std::fs::read_dir(folder).into_iter().flatten().filter_map(Result::ok);
    let folders = entries.filter(|entry| entry.file_type().is_ok_and(|kind| kind.is_dir()));
    let mut all: Vec<PathBuf> = folders.map(|entry| entry.path()).take(MOST).collect();
    all.sort();
    all
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Source: FIPS 180-4, the example "abc".
    const ABC: &str = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad";

    #[test]
    fn a_picture_that_moved_is_found_by_name_and_content() {
        let folder = tempfile::tempdir().unwrap();
        let at = |name: &str| folder.path().join(name);
        for name in ["old", "2025", "plans"] {
            std::fs::create_dir(at(name)).unwrap();
        }
        let gone = at("old").join("weir.tif");
        let words = found(&gone, ABC, &[]).unwrap_err();
        assert!(words.starts_with("Picture not found at ") && words.contains("weir.tif, nor"));
        assert!(words.ends_with("Put it back there, or correct the work."), "{words}");
        // One of that name, but another picture, is not taken for it.
        std::fs::write(at("2025").join("weir.tif"), "xyz").unwrap();
        let words = found(&gone, ABC, &[]).unwrap_err();
        assert!(words.contains("weir.tif is another picture."), "{words}");
        let moved = at("plans").join("weir.tif");
        std::fs::write(&moved, "abc").unwrap();
        assert_eq!(found(&gone, ABC, &[at("plans")]), Ok(moved));
        std::fs::write(&gone, "xyz").unwrap();
        assert_eq!(found(&gone, ABC, &[]), Ok(gone), "what is in its place is it");
    }
}
