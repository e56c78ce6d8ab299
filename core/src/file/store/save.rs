//! Saving, step by step.

use std::io;
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicU32, Ordering};
use std::time::Duration;

use sha2::{Digest, Sha256};

use super::{
    Disk, Failed, SaveError, Stamp, Step, file_itself, folder, most_read, with_ending,
};
use crate::file::{VERSION, read_versioned, write};
use crate::spec::Document;

/// What may be overwritten.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Overwrite<'a> {
    /// Nothing: the plan is new here.
    Nothing,
    /// The file as it was when last opened or saved.
    This(&'a Stamp),
    /// Whatever lies there; the person was asked.
    Anything,
}

/// Left by a crash when it is this much older than what was written just now; another
/// program's save takes moments.
const LEFT_BEHIND: Duration = Duration::from_mins(1);

/// Names for new files, tried in turn.
const TRIES: usize = 1000;

/// Makes each name of this process its own.
static NEXT: AtomicU32 = AtomicU32::new(0);

/// Saves a plan; returns the stamp of the file as it then is. A file of an older version
/// is kept, besides the backup, as `….v5`. Where the file holds the very same text already,
/// nothing is written, and the backup stays what it was.
///
/// # Errors
/// Says which step failed on which file and what to do. Nothing is lost: see [`SaveError`].
pub fn save(
    disk: &dyn Disk,
    path: &Path,
    document: &Document,
    over: Overwrite<'_>,
) -> Result<Stamp, SaveError> {
    let text = text_that_opens(path, document)?;
    let stamp = Stamp::of(text.as_bytes(), VERSION);
    let file = file_itself(disk, path)?;
    let saving = Saving { disk, path, file: &file };

    let before = saving.before(over)?;
    if before.as_deref() == Some(text.as_bytes()) {
        return Ok(stamp);
    }
    let new = saving.write_beside(text.as_bytes(), before.is_some())?;
    let placed = saving.put_in_place(&new, over);
    if placed.is_err() {
        // The error that matters is the one in hand.
        disk.remove(&new).ok();
    }
    placed?;
    match disk.sync_folder(folder(&file)) {
        Ok(()) => {
            saving.sweep();
            Ok(stamp)
        }
        Err(error) => {
            Err(SaveError::Unsure { failed: Failed::at(Step::SyncFolder, path)(error), stamp })
        }
    }
}

/// What would be written, proven to open as the same document.
fn text_that_opens(path: &Path, document: &Document) -> Result<String, SaveError> {
    let text = write(document);
    let fail = |why| SaveError::WouldNotOpen { path: path.to_owned(), why };
    let found = read_versioned(&text, "the plan").map_err(|error| fail(Some(error)))?;
    if found.document == *document { Ok(text) } else { Err(fail(None)) }
}

struct Saving<'a> {
    disk: &'a dyn Disk,
    /// As the person named it, for errors.
    path: &'a Path,
    /// The file behind it, links followed.
    file: &'a Path,
}

impl Saving<'_> {
    fn failed(&self, step: Step) -> impl Fn(io::Error) -> Failed {
        Failed::at(step, self.path)
    }

    /// What lies there now, if it may be overwritten.
    fn before(&self, over: Overwrite<'_>) -> Result<Option<Vec<u8>>, SaveError> {
        let bytes = self.disk.read(self.file, most_read()).map_err(self.failed(Step::Read))?;
        match (&bytes, over) {
            (Some(_), Overwrite::Nothing) => Err(SaveError::Exists(self.path.to_owned())),
            (Some(bytes), Overwrite::This(stamp)) if !stamp.is_of(bytes) => {
                Err(SaveError::Changed(self.path.to_owned()))
            }
            _ => Ok(bytes),
        }
    }

    /// The new file, whole and sure, under a name of its own in the same folder.
    fn write_beside(&self, bytes: &[u8], is_there: bool) -> Result<PathBuf, SaveError> {
        let permissions = if is_there {
            let permissions = self.disk.permissions(self.file);
            Some(permissions.map_err(self.failed(Step::Permissions))?)
        } else {
            None
        };
        if permissions.as_ref().is_some_and(std::fs::Permissions::readonly) {
            return Err(SaveError::ReadOnly(self.path.to_owned()));
        }
        for _ in 0..TRIES {
            let new = self.own_name();
            let mut file = match self.disk.create(&new) {
                Ok(file) => file,
                Err(error) if error.kind() == io::ErrorKind::AlreadyExists => continue,
                Err(error) => return Err(self.failed(Step::Create)(error).into()),
            };
            let mut all = || {
                if let Some(permissions) = permissions.clone() {
                    file.set_permissions(permissions).map_err(self.failed(Step::Create))?;
                }
                file.write(bytes).map_err(self.failed(Step::Write))?;
                file.sync().map_err(self.failed(Step::Sync))
            };
            let filled = all();
            drop(file);
            if let Err(failed) = filled {
                self.disk.remove(&new).ok();
                return Err(failed.into());
            }
            return Ok(new);
        }
        let error = io::Error::from(io::ErrorKind::AlreadyExists);
        Err(self.failed(Step::Create)(error).into())
    }

    /// Keeps what is there as the backup, then puts the new file in its place.
    fn put_in_place(&self, new: &Path, over: Overwrite<'_>) -> Result<(), SaveError> {
        // Writing took its time: look again.
        if let Some(before) = self.before(over)? {
            let version = match over {
                Overwrite::This(stamp) => stamp.version,
                Overwrite::Nothing | Overwrite::Anything => VERSION,
            };
            if version < VERSION {
                let kept = self.name_for_old(version).map_err(self.failed(Step::KeepOld))?;
                if let Some(kept) = kept {
                    self.keep(&kept, &before).map_err(self.failed(Step::KeepOld))?;
                }
            }
            let backup = with_ending(self.file, ".bak");
            self.keep(&backup, &before).map_err(self.failed(Step::Backup))?;
        }
        self.disk.rename(new, self.file).map_err(self.failed(Step::Replace))?;
        Ok(())
    }

    /// Gives the present file a second name in place of whatever has it, without ever taking
    /// it from where it is.
    fn keep(&self, name: &Path, bytes: &[u8]) -> io::Result<()> {
        let second = self.own_name();
        if self.disk.hard_link(self.file, &second).is_err() {
            // No second names on this file system: a copy does as well.
            let copied = self.disk.create(&second).and_then(|mut copy| {
                copy.set_permissions(self.disk.permissions(self.file)?)?;
                copy.write(bytes)?;
                copy.sync()
            });
            if let Err(error) = copied {
                self.disk.remove(&second).ok();
                return Err(error);
            }
        }
        let kept = self.disk.rename(&second, name);
        // After a crash both may be names of one file already: renaming then does nothing
        // and leaves the second name (POSIX rename). Else it is gone, and this finds none.
        self.disk.remove(&second).ok();
        kept
    }

    /// `….v5`, or `….v5.2` and so on where that is taken by another file; `None` where the
    /// very same file is kept already.
    fn name_for_old(&self, version: u64) -> io::Result<Option<PathBuf>> {
        let now = self.disk.read(self.file, most_read())?;
        for n in 1..TRIES {
            let ending =
                if n == 1 { format!(".v{version}") } else { format!(".v{version}.{n}") };
            let name = with_ending(self.file, &ending);
            let there = self.disk.read(&name, most_read())?;
            if there.is_none() {
                return Ok(Some(name));
            }
            if there == now {
                return Ok(None);
            }
        }
        Err(io::ErrorKind::AlreadyExists.into())
    }

    /// What all names of new files for this plan begin with. Short however long the plan's
    /// own name is, and no other plan's.
    fn own_prefix(&self) -> String {
        let name = self.file.file_name().unwrap_or_default();
        let hash: [u8; 32] = Sha256::digest(name.as_encoded_bytes()).into();
        let hash = hash.iter().take(8).fold(0_u64, |hash, byte| hash << 8 | u64::from(*byte));
        format!(".sightedge-{hash:016x}-")
    }

    fn own_name(&self) -> PathBuf {
        let n = NEXT.fetch_add(1, Ordering::Relaxed);
        let name = format!("{}{}-{n}.part", self.own_prefix(), std::process::id());
        folder(self.file).join(name)
    }

    /// Takes away new files for this plan that a crash left behind: only such as have our
    /// names and are older than what was written just now by more than a save can take. One
    /// that cannot be taken away is tried again by the next save.
    fn sweep(&self) {
        let prefix = self.own_prefix();
        let is_ours = |name: &String| {
            name.strip_prefix(&prefix)
                .and_then(|rest| rest.strip_suffix(".part"))
                .and_then(|rest| rest.split_once('-'))
                .is_some_and(|(process, n)| {
                    [process, n].iter().all(|part| part.parse::<u32>().is_ok())
                })
        };
        let Ok(Some(now)) = self.disk.written_at(self.file) else { return };
        let Ok(names) = self.disk.names(folder(self.file)) else { return };
        for name in names.into_iter().filter(is_ours) {
            let left = folder(self.file).join(name);
            let old = self.disk.written_at(&left).ok().flatten().is_some_and(|written| {
                now.duration_since(written).is_ok_and(|age| age > LEFT_BEHIND)
            });
            if old {
                self.disk.remove(&left).ok();
            }
        }
    }
}
