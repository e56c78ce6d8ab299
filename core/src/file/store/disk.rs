//! The steps that saving takes on a disk, behind a trait: a test can let any of them fail.

use std::fs::{self, File, OpenOptions, Permissions};
use std::io::{self, Read, Write};
use std::path::{Path, PathBuf};
use std::time::SystemTime;

/// What saving asks of a file system.
pub trait Disk {
    /// The bytes of a file, but at most `most` of them; `None` where there is no file.
    ///
    /// # Errors
    /// The system's.
    fn read(&self, path: &Path, most: u64) -> io::Result<Option<Vec<u8>>>;

    /// Where a symbolic link points; `None` for anything else, or nothing at all.
    ///
    /// # Errors
    /// The system's.
    fn link_target(&self, path: &Path) -> io::Result<Option<PathBuf>>;

    /// Who may do what with a file.
    ///
    /// # Errors
    /// The system's.
    fn permissions(&self, path: &Path) -> io::Result<Permissions>;

    /// When a file was last written; `None` for a folder or a link.
    ///
    /// # Errors
    /// The system's.
    fn written_at(&self, path: &Path) -> io::Result<Option<SystemTime>>;

    /// Makes a file that must not be there yet.
    ///
    /// # Errors
    /// The system's.
    fn create(&self, path: &Path) -> io::Result<Box<dyn NewFile>>;

    /// Gives a file a second name, which must not be there yet.
    ///
    /// # Errors
    /// The system's; some file systems know no second names.
    fn hard_link(&self, from: &Path, to: &Path) -> io::Result<()>;

    /// Gives a file another name, in place of the file that has it.
    ///
    /// # Errors
    /// The system's.
    fn rename(&self, from: &Path, to: &Path) -> io::Result<()>;

    /// Takes a file away.
    ///
    /// # Errors
    /// The system's.
    fn remove(&self, path: &Path) -> io::Result<()>;

    /// Makes what changed in a folder outlast a power cut.
    ///
    /// # Errors
    /// The system's.
    fn sync_folder(&self, folder: &Path) -> io::Result<()>;

    /// The names of what lies in a folder that are text.
    ///
    /// # Errors
    /// The system's.
    fn names(&self, folder: &Path) -> io::Result<Vec<String>>;
}

/// A file being written.
pub trait NewFile {
    /// Who may do what with it.
    ///
    /// # Errors
    /// The system's.
    fn set_permissions(&mut self, permissions: Permissions) -> io::Result<()>;

    /// Adds bytes.
    ///
    /// # Errors
    /// The system's.
    fn write(&mut self, bytes: &[u8]) -> io::Result<()>;

    /// Makes what was written outlast a power cut.
    ///
    /// # Errors
    /// The system's.
    fn sync(&mut self) -> io::Result<()>;
}

/// The system's own file system.
#[derive(Clone, Copy, Debug, Default)]
pub struct System;

/// `None` for what is not there.
fn if_there<T>(found: io::Result<T>) -> io::Result<Option<T>> {
    match found {
        Ok(found) => Ok(Some(found)),
        Err(error) if error.kind() == io::ErrorKind::NotFound => Ok(None),
        Err(error) => Err(error),
    }
}

impl Disk for System {
    fn read(&self, path: &Path, most: u64) -> io::Result<Option<Vec<u8>>> {
        let Some(file) = if_there(File::open(path))? else { return Ok(None) };
        let mut bytes = Vec::new();
        file.take(most).read_to_end(&mut bytes)?;
        Ok(Some(bytes))
    }

    fn link_target(&self, path: &Path) -> io::Result<Option<PathBuf>> {
        match if_there(fs::symlink_metadata(path))? {
            Some(found) if found.is_symlink() => fs::read_link(path).map(Some),
            _ => Ok(None),
        }
    }

    fn permissions(&self, path: &Path) -> io::Result<Permissions> {
        fs::metadata(path).map(|found| found.permissions())
    }

    fn written_at(&self, path: &Path) -> io::Result<Option<SystemTime>> {
        let found = fs::symlink_metadata(path)?;
        if found.is_file() { found.modified().map(Some) } else { Ok(None) }
    }

    fn create(&self, path: &Path) -> io::Result<Box<dyn NewFile>> {
        let file = OpenOptions::new().write(true).create_new(true).open(path)?;
        Ok(Box::new(file))
    }

    fn hard_link(&self, from: &Path, to: &Path) -> io::Result<()> {
        fs::hard_link(from, to)
    }

    fn rename(&self, from: &Path, to: &Path) -> io::Result<()> {
        fs::rename(from, to)
    }

    fn remove(&self, path: &Path) -> io::Result<()> {
        fs::remove_file(path)
    }

    #[cfg(unix)]
    fn sync_folder(&self, folder: &Path) -> io::Result<()> {
        match File::open(folder)?.sync_all() {
            // Some network file systems cannot; they have their own way of keeping promises.
            Err(error)
                if matches!(
                    error.kind(),
                    io::ErrorKind::InvalidInput | io::ErrorKind::Unsupported
                ) =>
            {
                Ok(())
            }
            other => other,
        }
    }

    /// Elsewhere a folder cannot be opened as a file; renaming is journalled there.
    #[cfg(not(unix))]
    fn sync_folder(&self, _: &Path) -> io::Result<()> {
        Ok(())
    }

    fn names(&self, folder: &Path) -> io::Result<Vec<String>> {
        let mut names = Vec::new();
        for entry in fs::read_dir(folder)? {
            if let Ok(name) = entry?.file_name().into_string() {
                names.push(name);
            }
        }
        Ok(names)
    }
}

impl NewFile for File {
    fn set_permissions(&mut self, permissions: Permissions) -> io::Result<()> {
        File::set_permissions(self, permissions)
    }

    fn write(&mut self, bytes: &[u8]) -> io::Result<()> {
        self.write_all(bytes)
    }

    fn sync(&mut self) -> io::Result<()> {
        self.sync_all()
    }
}
