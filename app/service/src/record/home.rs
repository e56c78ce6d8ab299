//! Where the studio's record is kept: in a folder that was chosen once, else in the usual one.

use std::path::{Path, PathBuf};

use serde::{Deserialize, Serialize};
use sightedge_studio::{Error, FILE, Opened};

use crate::storage::Storage;

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

/// Why the record cannot be opened until the person has said where it is.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum Lost {
    /// It is no longer in the folder that was chosen.
    Gone(PathBuf),
    /// The file that remembers the folder cannot be read; why.
    Forgotten(String),
    /// This system names no folder for data.
    Nowhere,
}

impl std::fmt::Display for Lost {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Self::Gone(folder) => {
                let why =
                    if folder.is_dir() { "holds no record any more" } else { "is not there" };
                write!(
                    f,
                    "{}, which you chose for the studio's record, {why}: it was moved or \
                     renamed, or its drive is not connected. No new record was begun. Connect \
                     the drive, or choose where the folder is now",
                    folder.display()
                )
            }
            Self::Forgotten(why) => write!(
                f,
                "The folder that you chose for the studio's record is not known any more: {why}. \
                 No new record was begun. Choose where the folder is"
            ),
            Self::Nowhere => write!(
                f,
                "This system names no folder for data, so there is no place for the record. Choose \
                 a folder to keep it in"
            ),
        }
    }
}

impl Home {
    /// Where it is: as was chosen, else as is usual.
    ///
    /// # Errors
    /// Where this system names no folder for data, or what was chosen can't be read: it stays as
    /// it is until the person has chosen anew.
    pub fn of(storage: &Storage) -> Result<Self, Lost> {
        match storage
            .read_as_it_is::<Kept>(KEPT)
            .map_err(Lost::Forgotten)?
            .and_then(|kept| kept.folder)
        {
            Some(folder) => Ok(Self { folder, chosen: true }),
            None => Self::usual(storage),
        }
    }

    /// Where it is unless the person chooses: in their folder of data, or with all else that is
    /// remembered where that lies in a folder of a caller's.
    ///
    /// # Errors
    /// Where this system names no folder for data.
    pub fn usual(storage: &Storage) -> Result<Self, Lost> {
        let own = std::env::var_os("SIGHTEDGE_STATE").is_some_and(|own| !own.is_empty());
        let folder = if own || storage.file(KEPT) != Storage::usual().file(KEPT) {
            storage.file("studio")
        } else {
            let dirs = directories::BaseDirs::new();
            dirs.map(|dirs| sightedge_studio::default_folder_in(dirs.data_local_dir()))
        };
        folder.map(|folder| Self { folder, chosen: false }).ok_or(Lost::Nowhere)
    }

    /// Whether the record is there, as it must be in a folder that was chosen.
    ///
    /// # Errors
    /// Names the folder.
    pub fn there(&self) -> Result<(), Lost> {
        if self.chosen && !self.folder.join(FILE).exists() {
            return Err(Lost::Gone(self.folder.clone()));
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
        storage: &Storage,
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
            None => {
                Self::usual(storage).map_err(|lost| Error::Unreadable(format!("{lost}.")))?
            }
        };
        let (opened, told) = super::opened(&home.folder)?;
        let kept = Kept { folder: home.chosen.then(|| home.folder.clone()) };
        let forgotten = storage.read_as_it_is::<Kept>(KEPT).is_err();
        let aside = if forgotten { storage.put_aside(KEPT) } else { Ok(()) };
        aside.and_then(|()| storage.write(KEPT, &kept)).map_err(|error| Error::System {
            file: storage.file(KEPT).unwrap_or_default(),
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
        let storage = Storage::at(&temp.path().join("state"));
        let usual = Home::of(&storage).unwrap();
        assert_eq!((usual.chosen, usual.there()), (false, Ok(())));
        let folder = temp.path().join("prints");
        let (home, opened, _) = Home::choose(&storage, Some(&folder)).unwrap();
        assert_eq!(opened.folder(), folder);
        drop(opened);
        assert_eq!(Home::of(&storage).unwrap(), home);
        assert_eq!(home.there(), Ok(()));

        std::fs::rename(&folder, temp.path().join("away")).unwrap();
        let lost = Home::of(&storage).unwrap().there().unwrap_err().to_string();
        assert!(lost.contains("prints, which you chose for the studio's record, is not there"));
        std::fs::create_dir(&folder).unwrap();
        let lost = home.there().unwrap_err().to_string();
        assert!(lost.contains("holds no record any more"), "{lost}");

        let wrong = Home::choose(&storage, Some(Path::new("prints"))).unwrap_err().to_string();
        assert!(wrong.starts_with("\"prints\" is no whole path of a folder"), "{wrong}");
        assert_eq!(Home::of(&storage).unwrap(), home, "as before");
        assert_eq!(Home::choose(&storage, None).unwrap().0, usual);
        assert_eq!(Home::of(&storage).unwrap(), usual);
    }

    /// What was chosen and cannot be read is asked for again and again, and stays where it is,
    /// until the person has chosen.
    #[test]
    fn what_cannot_be_read_begins_no_new_record() {
        let temp = tempfile::tempdir().unwrap();
        let storage = Storage::at(temp.path());
        let (folder, other) = (temp.path().join("prints"), temp.path().join("other"));
        drop(Home::choose(&storage, Some(&folder)).unwrap());
        let file = temp.path().join(KEPT);
        for spoilt in [&b"(folder: Some(\"/stu"[..], b"", b"\xff\xfe"] {
            std::fs::write(&file, spoilt).unwrap();
            for _ in 0..3 {
                let words = Home::of(&storage).unwrap_err().to_string();
                assert!(
                    words.contains("studio.ron cannot be read: ")
                        && words
                            .ends_with("No new record was begun. Choose where the folder is"),
                    "{words}"
                );
                assert_eq!(std::fs::read(&file).unwrap(), spoilt, "it may be mended");
            }
            // A folder that is no place for a record is no choice.
            drop(Home::choose(&storage, Some(&file)).unwrap_err());
            assert!(Home::of(&storage).is_err());
            let home = Home::choose(&storage, Some(&other)).unwrap().0;
            assert_eq!(Home::of(&storage), Ok(home));
        }
        // What was spoilt is kept aside each time.
        for n in 1..=3 {
            assert!(temp.path().join(format!("studio-{n}.unreadable")).exists(), "{n}");
        }
    }
}
