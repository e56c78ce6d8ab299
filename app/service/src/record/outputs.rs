//! Where printouts of prints are written: in the folder that was chosen last.

use std::path::{Path, PathBuf};

use serde::{Deserialize, Serialize};

use super::printouts::usual_out;
use crate::storage::Storage;

/// The file that remembers the folder.
const KEPT: &str = "printouts.ron";
/// The folder that is proposed where the record is kept out of sight.
const NAME: &str = "Sightedge printouts";

#[derive(Clone, Debug, Default, Serialize, Deserialize)]
#[serde(default)]
struct Kept {
    folder: Option<PathBuf>,
}

/// The folder that was written to last; before that, one beside the record, or in the person's
/// documents where the record is in the system's own folder, which file managers hide.
pub fn folder_for_printouts(storage: &Storage, studio: &Path) -> PathBuf {
    let kept = storage.read_as_it_is::<Kept>(KEPT).ok().flatten();
    let there = |folder: &PathBuf| folder.ancestors().skip(1).any(Path::is_dir);
    if let Some(folder) = kept.and_then(|kept| kept.folder).filter(there) {
        return folder;
    }
    let data = directories::BaseDirs::new();
    let hidden = data.is_some_and(|dirs| {
        sightedge_studio::default_folder_in(dirs.data_local_dir()) == studio
    });
    let documents = || {
        let own = directories::UserDirs::new()?;
        Some(own.document_dir().unwrap_or(own.home_dir()).join(NAME))
    };
    let documents = if hidden { documents() } else { None };
    documents.unwrap_or_else(|| usual_out(studio))
}

/// Remembers a folder that was written to. Where that fails, the next page proposes the one before.
pub fn keep_folder_for_printouts(storage: &Storage, folder: &Path) {
    let kept = Kept { folder: Some(folder.to_owned()) };
    storage.write(KEPT, &kept).unwrap_or_default();
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_folder_chosen_last_is_proposed_and_never_a_hidden_one() {
        let temp = tempfile::tempdir().unwrap();
        let storage = Storage::at(&temp.path().join("state"));
        let studio = temp.path().join("studio");
        assert_eq!(folder_for_printouts(&storage, &studio), studio.join("printouts"));
        let own = directories::BaseDirs::new().unwrap();
        let usual = sightedge_studio::default_folder_in(own.data_local_dir());
        let proposed = folder_for_printouts(&storage, &usual);
        assert!(proposed.ends_with(NAME) && !proposed.starts_with(&usual), "{proposed:?}");
        let chosen = temp.path().join("show");
        keep_folder_for_printouts(&storage, &chosen);
        assert_eq!(folder_for_printouts(&storage, &studio), chosen);
        assert_eq!(folder_for_printouts(&storage, &usual), chosen);
    }
}
