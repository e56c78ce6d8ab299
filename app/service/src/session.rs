//! Whether the window that kept a piece of unsaved work still runs. Each window holds a lock on
//! a file of its own; the system lets go of it when the window ends, however it ends.

use std::fs::{File, TryLockError};
use std::path::{Path, PathBuf};
use std::time::{Duration, SystemTime};

/// What lock files end in.
const ENDING: &str = "lock";

/// A window that runs, as others see it. It ends when this is dropped.
#[derive(Debug)]
pub(crate) struct Session {
    name: String,
    path: PathBuf,
    /// Held open: the lock goes with it.
    lock: File,
}

/// Where a disk has no locks, a window whose file was not touched for so long has ended: one
/// that is worked in touches it whenever it keeps something. Source: our own choice.
const ENDED_AFTER: Duration = Duration::from_mins(5);

impl Session {
    /// Begins one whose lock lies in `folder`, under a name that no other had there.
    ///
    /// # Errors
    /// What the system says where no file can be made there.
    pub(crate) fn begin(folder: &Path) -> std::io::Result<Self> {
        std::fs::create_dir_all(folder)?;
        let mut n = 0_u32;
        loop {
            let name = format!("{}_{n}", std::process::id());
            n += 1;
            let path = lock_file(folder, &name);
            let lock = match File::options().write(true).create_new(true).open(&path) {
                Ok(lock) => lock,
                // Of a program that had this number before.
                Err(error) if error.kind() == std::io::ErrorKind::AlreadyExists => continue,
                Err(error) => return Err(error),
            };
            match lock.try_lock() {
                // Another window that just cleared it away took it for one that has ended.
                Ok(()) if !path.exists() => {}
                Err(TryLockError::WouldBlock) => {}
                // Where a disk has no locks, the file alone says that the window runs.
                Ok(()) | Err(TryLockError::Error(_)) => {
                    return Ok(Self { name, path, lock });
                }
            }
        }
    }

    /// Says that it still runs, to those who look where there are no locks.
    pub(crate) fn touch(&self) {
        // Where that cannot be done, locks are what there is.
        drop(self.lock.set_modified(SystemTime::now()));
    }

    /// Its name: letters, digits and `_`.
    pub(crate) fn name(&self) -> &str {
        &self.name
    }
}

impl Drop for Session {
    fn drop(&mut self) {
        // What stays behind is cleared away by the next window.
        drop(std::fs::remove_file(&self.path));
    }
}

fn lock_file(folder: &Path, name: &str) -> PathBuf {
    folder.join(format!("{name}.{ENDING}"))
}

/// To lock it; some disks lock no file that is open for reading alone.
fn open(path: &Path) -> std::io::Result<File> {
    File::options().read(true).write(true).open(path)
}

/// Whether the session of that name still runs. In doubt it does: what it kept is then left
/// alone.
pub(crate) fn is_running(folder: &Path, name: &str) -> bool {
    match open(&lock_file(folder, name)) {
        Ok(file) => is_held(&file, &file.try_lock()),
        Err(error) => error.kind() != std::io::ErrorKind::NotFound,
    }
}

/// Whether a window holds the lock file; `locked` is what came of locking it.
fn is_held(file: &File, locked: &Result<(), TryLockError>) -> bool {
    match locked {
        Ok(()) => false,
        Err(TryLockError::WouldBlock) => true,
        // No locks on this disk: by its age. A clock that was set back makes it young.
        Err(TryLockError::Error(_)) => {
            let touched = file.metadata().and_then(|meta| meta.modified());
            let age = touched.ok().and_then(|touched| touched.elapsed().ok());
            age.is_none_or(|age| age < ENDED_AFTER)
        }
    }
}

/// Clears away the locks of sessions that have ended.
pub(crate) fn clear_ended(folder: &Path) {
    let entries = std::fs::read_dir(folder).into_iter().flatten().filter_map(Result::ok);
    let locks = entries.map(|entry| entry.path());
    for path in locks.filter(|path| path.extension().is_some_and(|ending| ending == ENDING)) {
        // Removed while it is locked: a window that is just beginning sees that it is gone.
        if let Ok(file) = open(&path)
            && !is_held(&file, &file.try_lock())
        {
            // One that cannot be removed does no harm.
            drop(std::fs::remove_file(&path));
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_session_runs_until_it_ends() {
        let folder = tempfile::tempdir().unwrap();
        let at = folder.path();
        let one = Session::begin(at).unwrap();
        let other = Session::begin(at).unwrap();
        assert_ne!(one.name(), other.name());
        assert!(is_running(at, one.name()) && is_running(at, other.name()));
        clear_ended(at);
        assert!(is_running(at, one.name()), "a running one is not cleared away");
        let name = one.name().to_owned();
        drop(one);
        assert!(!is_running(at, &name) && is_running(at, other.name()));
        // What a window left that was killed: a file nobody holds.
        std::fs::write(lock_file(at, "7_0"), "").unwrap();
        assert!(!is_running(at, "7_0"));
        clear_ended(at);
        assert!(!lock_file(at, "7_0").exists());
        // A number that comes again is another session.
        std::fs::write(lock_file(at, &name), "").unwrap();
        assert_ne!(Session::begin(at).unwrap().name(), name);
    }

    /// A disk that refuses to lock: the file's age tells.
    #[test]
    fn without_locks_a_window_that_keeps_nothing_has_ended() {
        let folder = tempfile::tempdir().unwrap();
        let session = Session::begin(folder.path()).unwrap();
        let file = open(&session.path).unwrap();
        let held = || {
            let none = std::io::Error::from(std::io::ErrorKind::Unsupported);
            is_held(&file, &Err(TryLockError::Error(none)))
        };
        assert!(held(), "just begun");
        let long_ago = SystemTime::now() - ENDED_AFTER - Duration::from_secs(1);
        file.set_modified(long_ago).unwrap();
        assert!(!held(), "of a window that crashed");
        session.touch();
        assert!(held(), "one that keeps its work runs");
    }
}
