//! Where the studio's record is kept: in a folder that was chosen once, else in the usual one.

use std::path::{Path, PathBuf};

use serde::{Deserialize, Serialize};
use sightedge_studio::{Error, FILE, Opened};

use crate::state::Keep;

/// The file that remembers a folder that was chosen.
const KEPT: &str = "studio.ron";

#[derive(Clone, Debug, Default, Serialize, Deserialize)]
#[serde(default)]
struct Kept {
    folder: Option<PathBuf>,
}

/// Where the record is kept.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Home {
    /// The folder.
    pub folder: PathBuf,
    /// Whether the person chose it: then it must be there, and hold the record.
    pub chosen: bool,
}

/// The record is no longer where it was.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Lost(pub PathBuf);

impl std::fmt::Display for Lost {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let why = if self.0.is_dir() { "holds no record any more" } else { "is not there" };
        write!(
            f,
            "{}, which you chose for the studio's record, {why}: it was moved or renamed, or its \
             drive is not connected. No new record was begun. Connect the drive, or say where \
             the folder is now",
            self.0.display()
        )
    }
}

impl Home {
    /// Where it is: as was chosen, else as is usual.
    ///
    /// # Errors
    /// Where this system names no folder for data, or what was chosen can't be read.
    pub fn of(keep: &Keep) -> Result<Self, String> {
        let (kept, said) = keep.read::<Kept>(KEPT);
        if let Some(said) = said {
            return Err(format!("Where the studio's record is kept is not known: {said}"));
        }
        match kept.and_then(|kept| kept.folder) {
            Some(folder) => Ok(Self { folder, chosen: true }),
            None => Self::usual(keep),
        }
    }

    /// Where it is unless the person chooses: in their folder of data, or with all else that is
    /// remembered where that lies in a folder of a caller's.
    ///
    /// # Errors
    /// Where this system names no folder for data.
    pub fn usual(keep: &Keep) -> Result<Self, String> {
        let own = std::env::var_os("SIGHTEDGE_STATE").is_some_and(|own| !own.is_empty());
        let folder = if own || keep.file(KEPT) != Keep::usual().file(KEPT) {
            keep.file("studio")
        } else {
            let dirs = directories::BaseDirs::new();
            dirs.map(|dirs| sightedge_studio::default_folder_in(dirs.data_local_dir()))
        };
        let folder = folder.ok_or(
            "This system names no folder for data, so there is no place for the record.",
        )?;
        Ok(Self { folder, chosen: false })
    }

    /// Whether the record is there, as it must be in a folder that was chosen.
    ///
    /// # Errors
    /// Names the folder.
    pub fn there(&self) -> Result<(), Lost> {
        if self.chosen && !self.folder.join(FILE).exists() {
            return Err(Lost(self.folder.clone()));
        }
        Ok(())
    }

    /// Opens the record in another folder, begins one where there is none, and remembers the
    /// folder; `None` is the usual one. What was in the folder before stays there.
    ///
    /// # Errors
    /// Where the folder is no place for a record, or can't be remembered: then nothing is
    /// remembered, and the record is where it was.
    pub fn choose(
        keep: &Keep,
        folder: Option<&Path>,
    ) -> Result<(Self, Opened, Option<String>), Error> {
        let home = match folder {
            Some(folder) if folder.is_absolute() => {
                Self { folder: folder.to_owned(), chosen: true }
            }
            Some(folder) => {
                return Err(Error::Unreadable(format!(
                    "\"{}\" is no whole path of a folder: type it from its beginning, as in {}",
                    folder.display(),
                    std::env::temp_dir().join("studio").display()
                )));
            }
            None => Self::usual(keep).map_err(Error::Unreadable)?,
        };
        let (opened, told) = super::opened(&home.folder)?;
        let kept = Kept { folder: home.chosen.then(|| home.folder.clone()) };
        keep.write(KEPT, &kept).map_err(|error| Error::System {
            file: keep.file(KEPT).unwrap_or_default(),
            why: format!("the folder could not be remembered: {error}"),
        })?;
        Ok((home, opened, told))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_folder_is_chosen_remembered_and_missed() {
        let temp = tempfile::tempdir().unwrap();
        let keep = Keep::at(&temp.path().join("state"));
        let usual = Home::of(&keep).unwrap();
        assert_eq!((usual.chosen, usual.there()), (false, Ok(())));
        let folder = temp.path().join("prints");
        let (home, opened, _) = Home::choose(&keep, Some(&folder)).unwrap();
        assert_eq!(opened.folder(), folder);
        drop(opened);
        assert_eq!(Home::of(&keep).unwrap(), home);
        assert_eq!(home.there(), Ok(()));

        std::fs::rename(&folder, temp.path().join("away")).unwrap();
        let lost = Home::of(&keep).unwrap().there().unwrap_err().to_string();
        assert!(lost.contains("prints, which you chose for the studio's record, is not there"));
        std::fs::create_dir(&folder).unwrap();
        let lost = home.there().unwrap_err().to_string();
        assert!(lost.contains("holds no record any more"), "{lost}");

        let wrong = Home::choose(&keep, Some(Path::new("prints"))).unwrap_err().to_string();
        assert!(wrong.starts_with("\"prints\" is no whole path of a folder"), "{wrong}");
        assert_eq!(Home::of(&keep).unwrap(), home, "as before");
        assert_eq!(Home::choose(&keep, None).unwrap().0, usual);
        assert_eq!(Home::of(&keep).unwrap(), usual);
    }

    #[test]
    fn what_cannot_be_read_begins_no_new_record() {
        let temp = tempfile::tempdir().unwrap();
        let keep = Keep::at(temp.path());
        std::fs::write(temp.path().join(KEPT), "spoilt").unwrap();
        let words = Home::of(&keep).unwrap_err();
        assert!(words.contains("studio.ron cannot be read"), "{words}");
    }
}
