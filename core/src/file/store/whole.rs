//! Writing any file so that it is there whole or not at all, and outlasts a power cut.

use std::io::{self, Write};
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicU32, Ordering};

use sha2::{Digest, Sha256};

use super::{Disk, NewFile, TRIES, file_itself, folder};

/// Makes each name of this process its own.
static NEXT: AtomicU32 = AtomicU32::new(0);

/// What the names of all new files for this one begin with. Short however long its own name is,
/// and no other file's.
pub(super) fn own_prefix(file: &Path) -> String {
    let name = file.file_name().unwrap_or_default();
    let hash: [u8; 32] = Sha256::digest(name.as_encoded_bytes()).into();
    let hash = hash.iter().take(8).fold(0_u64, |hash, byte| hash << 8 | u64::from(*byte));
    format!(".sightedge-{hash:016x}-")
}

/// A name in the folder of this file that no other process or thread makes.
pub(super) fn own_name(file: &Path) -> PathBuf {
    let n = NEXT.fetch_add(1, Ordering::Relaxed);
    folder(file).join(format!("{}{}-{n}.part", own_prefix(file), std::process::id()))
}

/// Makes a file beside this one, under a name of its own.
pub(super) fn created(disk: &dyn Disk, file: &Path) -> io::Result<(PathBuf, Box<dyn NewFile>)> {
    for _ in 0..TRIES {
        let new = own_name(file);
        match disk.create(&new) {
            Ok(made) => return Ok((new, made)),
            // Left by a process that had this number before.
            Err(error) if error.kind() == io::ErrorKind::AlreadyExists => {}
            Err(error) => return Err(error),
        }
    }
    Err(io::ErrorKind::AlreadyExists.into())
}

/// Writes a file in the place of what is there: the old one or the new one is there, whole,
/// whatever happens. Links are followed; who may do what with it stays.
///
/// # Errors
/// The system's; then the old file is as it was, unless it is the last step that failed, after
/// which a power cut might bring the old one back.
pub fn write_whole(disk: &dyn Disk, path: &Path, bytes: &[u8]) -> io::Result<()> {
    write_whole_by(disk, path, |out| out.write_all(bytes))
}

/// The same, filled by `write_into`.
///
/// # Errors
/// As [`write_whole`]; and those of `write_into`.
pub fn write_whole_by(
    disk: &dyn Disk,
    path: &Path,
    write_into: impl FnOnce(&mut dyn Write) -> io::Result<()>,
) -> io::Result<()> {
    let file = file_itself(disk, path).map_err(|failed| failed.error)?;
    let new = filled(disk, &file, write_into)?;
    put_in_place(disk, &new, &file)
}

/// Writes a file where none may be yet.
///
/// # Errors
/// The system's, `AlreadyExists` among them; then there is no new file.
pub fn write_new(disk: &dyn Disk, path: &Path, bytes: &[u8]) -> io::Result<()> {
    let new = filled(disk, path, |out| out.write_all(bytes))?;
    // A second name is never put in the place of another file; renaming would be.
    let named = match disk.hard_link(&new, path) {
        Err(error) if error.kind() != io::ErrorKind::AlreadyExists => {
            // No second names on this file system: what is in the way is looked for instead.
            let there = disk.read(path, 0).and_then(|there| match there {
                Some(_) => Err(io::ErrorKind::AlreadyExists.into()),
                None => Ok(()),
            });
            return match there {
                Ok(()) => put_in_place(disk, &new, path),
                Err(error) => {
                    disk.remove(&new).ok();
                    Err(error)
                }
            };
        }
        named => named,
    };
    disk.remove(&new).ok();
    named.and_then(|()| disk.sync_folder(folder(path)))
}

/// Puts a file that is whole, and on the disk, in the place of another in the same folder. Where
/// that cannot be, the new one is taken away.
///
/// # Errors
/// The system's.
pub fn put_in_place(disk: &dyn Disk, new: &Path, file: &Path) -> io::Result<()> {
    if let Err(error) = disk.rename(new, file) {
        // The error that matters is the one in hand.
        disk.remove(new).ok();
        return Err(error);
    }
    disk.sync_folder(folder(file))
}

/// A new file beside this one, whole and on the disk.
fn filled(
    disk: &dyn Disk,
    file: &Path,
    write_into: impl FnOnce(&mut dyn Write) -> io::Result<()>,
) -> io::Result<PathBuf> {
    let (new, mut made) = created(disk, file)?;
    let all = || {
        match disk.permissions(file) {
            Ok(permissions) if !permissions.readonly() => made.set_permissions(permissions)?,
            Err(error) if error.kind() != io::ErrorKind::NotFound => return Err(error),
            Ok(_) | Err(_) => {}
        }
        write_into(&mut Out(&mut *made))?;
        made.sync()
    };
    let filled = all();
    drop(made);
    if let Err(error) = filled {
        disk.remove(&new).ok();
        return Err(error);
    }
    Ok(new)
}

/// A new file as what writes bytes.
struct Out<'a>(&'a mut dyn NewFile);

impl Write for Out<'_> {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        self.0.write(bytes).map(|()| bytes.len())
    }

    fn flush(&mut self) -> io::Result<()> {
        Ok(())
    }
}
