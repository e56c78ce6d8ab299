//! Opening a studio's folder: checking the record, its dated backups, restoring one.

use std::path::{Path, PathBuf};
use std::time::Duration;

use sightedge_core::file::store::{Disk, System, put_in_place};

use crate::place::{BACKUPS, FILE, refuse_network};
use crate::sqlite::{LADDER, Rung, Sqlite, copy};
use crate::{Contents, Error, Record};

/// Daily backups are kept so many, the newest; before that, the first of each month.
const KEPT: usize = 30;
/// A record up to so many bytes is copied after each change: that costs no more than a blink.
const SMALL: u64 = 4 << 20;
/// How old the day's backup of a larger one may be while it changes.
const FRESH: Duration = Duration::from_mins(10);

/// A record that was opened.
pub struct Opened {
    record: Sqlite,
    folder: PathBuf,
    identity: Option<(u64, u64)>,
}

/// The file's identity: device and inode, where the system has them.
#[cfg(unix)]
fn identity(file: &Path) -> Option<(u64, u64)> {
    use std::os::unix::fs::MetadataExt;
    let facts = std::fs::metadata(file).ok()?;
    Some((facts.dev(), facts.ino()))
}

#[cfg(not(unix))]
fn identity(_: &Path) -> Option<(u64, u64)> {
    None
}

impl std::fmt::Debug for Opened {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("Opened").field("folder", &self.folder).finish_non_exhaustive()
    }
}

impl Opened {
    /// What is in it.
    pub fn record(&mut self) -> &mut dyn Record {
        &mut self.record
    }

    /// What is in it, to be read.
    pub fn read(&self) -> &dyn Record {
        &self.record
    }

    /// Its folder.
    pub fn folder(&self) -> &Path {
        &self.folder
    }

    /// Its file.
    pub fn file(&self) -> &Path {
        self.record.file()
    }

    /// Whether another file has taken its place since it was opened, as restoring a backup does:
    /// what is written from then on would go to the file kept aside. Known on Unix; elsewhere an
    /// open file cannot be replaced.
    pub fn replaced(&self) -> bool {
        self.identity.is_some() && identity(self.file()) != self.identity
    }

    /// Lets the file grow to so many pages and no more, as a full disk would.
    ///
    /// # Errors
    /// Where the record cannot be asked.
    pub fn limit_pages(&self, most: u32) -> Result<(), Error> {
        self.record.limit_pages(most)
    }

    /// Makes the day's backup where there is none yet, and removes those older than a month but for
    /// one a month. Returns the backup where one was made.
    ///
    /// # Errors
    /// Where the copy cannot be made; the record itself is not touched.
    pub fn back_up(&self, today: &str) -> Result<Option<PathBuf>, Error> {
        let file = backup_file(&self.folder, today, "")?;
        if file.exists() {
            return Ok(None);
        }
        self.back_up_to(&file).map(Some)
    }

    /// Makes the day's backup, also in the place of one that is older than that: what was
    /// written since is in no other.
    ///
    /// # Errors
    /// As [`Self::back_up`]; the older one stays.
    pub fn back_up_anew(&self, today: &str, older: Duration) -> Result<Option<PathBuf>, Error> {
        let file = backup_file(&self.folder, today, "")?;
        let made = std::fs::metadata(&file).and_then(|meta| meta.modified());
        // One of the future, after the clock was set back, is old.
        let fresh = made.is_ok_and(|made| made.elapsed().is_ok_and(|age| age < older));
        if fresh {
            return Ok(None);
        }
        self.back_up_to(&file).map(Some)
    }

    /// After a change: makes the day's backup anew at once where the record is small, else
    /// where the backup is older than ten minutes. Returns it where one was made.
    ///
    /// # Errors
    /// As [`Self::back_up`]; the older one stays.
    pub fn back_up_change(&self, today: &str) -> Result<Option<PathBuf>, Error> {
        let size = |file: &Path| std::fs::metadata(file).map_or(0, |meta| meta.len());
        let small = size(self.file()) <= SMALL;
        self.back_up_anew(today, if small { Duration::ZERO } else { FRESH })
    }

    fn back_up_to(&self, file: &Path) -> Result<PathBuf, Error> {
        // Nothing is ever deleted: one that holds more is of another record, or of what was
        // lost since.
        let more = contents(file).is_some_and(|held| {
            let mine = self.record.contents().unwrap_or_default();
            held.works > mine.works || held.prints > mine.prints
        });
        if more {
            move_aside(file)?;
        }
        whole_copy(file, |beside| {
            self.record.copy_to(beside)?;
            if is_whole(beside) {
                return Ok(());
            }
            // Never in the place of a good one.
            Err(Error::System {
                file: file.to_owned(),
                why: "the copy came out damaged, and was thrown away; the backup before it \
                      stays"
                    .to_owned(),
            })
        })?;
        for old in expired(&backups(&self.folder)) {
            // One too many is no harm.
            std::fs::remove_file(&old.file).unwrap_or_default();
        }
        Ok(file.to_owned())
    }
}

/// A dated backup of a record.
#[derive(Clone, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub struct Backup {
    /// The day it was made.
    pub day: String,
    /// Its file.
    pub file: PathBuf,
}

/// What a backup of any version holds; `None` where it cannot be read.
pub fn contents(backup: &Path) -> Option<Contents> {
    crate::sqlite::contents(backup).ok()
}

/// Opens the record in `folder`, and makes both where there are none. `today`, as in
/// 2025-11-30, dates the backups made before an older record is brought to this version.
///
/// # Errors
/// Where the folder is on a network drive or cannot be used, the record is damaged (the newest
/// whole backup is named), or its version is newer than this program or was never released.
pub fn open(folder: &Path, today: &str) -> Result<Opened, Error> {
    open_on(&LADDER, folder, today)
}

/// As [`open`], with the versions of `ladder`.
pub(crate) fn open_on(ladder: &[Rung], folder: &Path, today: &str) -> Result<Opened, Error> {
    std::fs::create_dir_all(folder)
        .map_err(|error| Error::Folder { folder: folder.to_owned(), why: error.to_string() })?;
    refuse_network(folder)?;
    let file = folder.join(FILE);
    refuse_lost(&file)?;
    let before = |conn: &rusqlite::Connection, version: i64| {
        let file = backup_file(folder, today, &format!("-of-version-{version}"))?;
        if file.exists() { Ok(()) } else { whole_copy(&file, |beside| copy(conn, beside)) }
    };
    let record = Sqlite::open(&file, ladder, before).map_err(|error| match error {
        Error::Damaged { file, why, .. } => {
            Error::Damaged { file, why, backup: newest_whole(folder) }
        }
        other => other,
    })?;
    let identity = identity(&file);
    Ok(Opened { record, folder: folder.to_owned(), identity })
}

fn newest_whole(folder: &Path) -> Option<PathBuf> {
    let whole = backups(folder).into_iter().rev().map(|backup| backup.file);
    { whole }.find(|backup| is_whole(backup))
}

/// A record that is gone while its backups hold works is lost, not new: one that is begun in its
/// place would give every number anew.
fn refuse_lost(file: &Path) -> Result<(), Error> {
    let empty = |file: &Path| std::fs::metadata(file).map_or(true, |meta| meta.len() == 0);
    let mut log = file.as_os_str().to_owned();
    log.push("-wal");
    // What was written just now may be in the log alone.
    if !empty(file) || !empty(Path::new(&log)) {
        return Ok(());
    }
    let folder = file.parent().unwrap_or(Path::new("."));
    let held = |backup: &PathBuf| contents(backup).is_some_and(|held| held.works > 0);
    match newest_whole(folder).filter(held) {
        None => Ok(()),
        backup => {
            let why = if file.exists() { "it is empty" } else { "it is not there" };
            let why = format!("{why}, and its backups are");
            Err(Error::Damaged { file: file.to_owned(), why, backup })
        }
    }
}

/// The dated backups in a studio's folder, the oldest first.
pub fn backups(folder: &Path) -> Vec<Backup> {
    let entries = std::fs::read_dir(folder.join(BACKUPS)).into_iter().flatten();
    let mut found: Vec<Backup> = entries
        .filter_map(Result::ok)
        .filter_map(|entry| {
            let name = entry.file_name();
            let name = name.to_str()?.strip_prefix("studio-")?.strip_suffix(".sqlite")?;
            Some(Backup { day: name.get(..10)?.to_owned(), file: entry.path() })
        })
        .collect();
    found.sort();
    found
}

/// Restores a backup in the place of a damaged record. The damaged file and what belongs to it are
/// kept, renamed with `stamp`; so is a backup of that day which is not the one put back, as the
/// next change would write over it.
///
/// # Errors
/// Where the backup is not whole, or a file cannot be moved; then nothing is changed.
pub fn restore(folder: &Path, backup: &Path, stamp: &str) -> Result<PathBuf, Error> {
    if !is_whole(backup) {
        return Err(Error::Damaged {
            file: backup.to_owned(),
            why: "it is no whole backup".to_owned(),
            backup: None,
        });
    }
    let file = folder.join(FILE);
    let new = folder.join("studio.sqlite.new");
    let failed = |error: std::io::Error| Error::system(&file, error);
    std::fs::copy(backup, &new).map_err(failed)?;
    let synced = std::fs::File::open(&new).and_then(|file| file.sync_all());
    synced.map_err(failed)?;
    if let Ok(day) = backup_file(folder, stamp, "")
        && day.exists()
        && day.canonicalize().ok() != backup.canonicalize().ok()
    {
        move_aside(&day)?;
    }
    let kept = set_aside(&file, stamp)?;
    put_in_place(&System, &new, &file).map_err(failed)?;
    Ok(kept)
}

/// Sets a damaged record aside and begins an empty one. Nothing is thrown away; returns where the
/// damaged file is kept.
///
/// # Errors
/// Where a file cannot be moved or made.
pub fn begin_anew(folder: &Path, stamp: &str) -> Result<PathBuf, Error> {
    let file = folder.join(FILE);
    let kept = set_aside(&file, stamp)?;
    if let Ok(day) = backup_file(folder, stamp, "")
        && day.exists()
    {
        move_aside(&day)?;
    }
    // Begun here, so that it is not taken for one that was lost.
    Sqlite::open(&file, &LADDER, |_, _| Ok(()))?;
    System.sync_folder(folder).map_err(|error| Error::system(&file, error))?;
    Ok(kept)
}

/// Gives a backup another name, so that nothing is written over it.
fn move_aside(backup: &Path) -> Result<(), Error> {
    let stem = backup.file_stem().unwrap_or_default().to_string_lossy();
    let aside = free_name(|again| backup.with_file_name(format!("{stem}-left-{again}.sqlite")));
    std::fs::rename(backup, aside).map_err(|error| Error::system(backup, error))
}

fn set_aside(file: &Path, stamp: &str) -> Result<PathBuf, Error> {
    let failed = |error: std::io::Error| Error::system(file, error);
    let stamp: String =
        stamp.chars().map(|c| if c.is_ascii_alphanumeric() { c } else { '-' }).collect();
    let kept = free_name(|again| {
        let again = if again == 1 { String::new() } else { format!("-{again}") };
        file.with_file_name(format!("studio-damaged-{stamp}{again}.sqlite"))
    });
    // The log first: an old log beside a new file would be played into it.
    for ending in ["-wal", "-shm", ""] {
        let with = |path: &Path| {
            let mut longer = path.as_os_str().to_owned();
            longer.push(ending);
            PathBuf::from(longer)
        };
        match std::fs::rename(with(file), with(&kept)) {
            Err(error) if error.kind() != std::io::ErrorKind::NotFound => {
                return Err(failed(error));
            }
            _ => {}
        }
    }
    Ok(kept)
}

/// The first of these names that no file has yet.
fn free_name(name: impl Fn(u32) -> PathBuf) -> PathBuf {
    let mut again = 1;
    loop {
        let path = name(again);
        if !path.exists() {
            return path;
        }
        again += 1;
    }
}

/// What an exported record is called.
pub fn export_name(today: &str) -> String {
    format!("studio-{today}.ron")
}

fn backup_file(folder: &Path, today: &str, more: &str) -> Result<PathBuf, Error> {
    let day: String =
        today.chars().filter(|c| c.is_ascii_digit() || *c == '-').take(10).collect();
    if day.len() != 10 {
        return Err(Error::refused(format!(
            "\"{today}\" is no day for a backup: type year, month and day, as in 2025-11-30"
        )));
    }
    Ok(folder.join(BACKUPS).join(format!("studio-{day}{more}.sqlite")))
}

/// Writes beside the file, and puts it in its place only when it is whole.
fn whole_copy(
    file: &Path,
    write: impl FnOnce(&Path) -> Result<(), Error>,
) -> Result<(), Error> {
    let failed = |error: std::io::Error| Error::system(file, error);
    let folder = file.parent().unwrap_or(Path::new("."));
    std::fs::create_dir_all(folder).map_err(failed)?;
    // Two windows may make the day's backup at once.
    let beside = file.with_extension(format!("sqlite.{}.new", std::process::id()));
    if let Err(error) = write(&beside) {
        std::fs::remove_file(&beside).unwrap_or_default();
        return Err(error);
    }
    put_in_place(&System, &beside, file).map_err(failed)
}

fn is_whole(backup: &Path) -> bool {
    crate::sqlite::is_whole(backup)
}

/// Daily ones beyond the newest [`KEPT`], but for the first of each month. Those made before
/// a new version stay.
fn expired(all: &[Backup]) -> Vec<Backup> {
    let dated = |backup: &&Backup| {
        let name = backup.file.file_name().and_then(|name| name.to_str()).unwrap_or_default();
        name == format!("studio-{}.sqlite", backup.day)
    };
    let daily: Vec<&Backup> = all.iter().filter(dated).collect();
    let old = daily.len().saturating_sub(KEPT);
    let mut month = "";
    let mut gone = Vec::new();
    for backup in daily.into_iter().take(old) {
        let its = backup.day.get(..7).unwrap_or_default();
        if its == month {
            gone.push(backup.clone());
        }
        month = its;
    }
    gone
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_month_of_days_and_one_a_month_before() {
        let days = |month: u32, days: u32| {
            (1..=days).map(move |day| format!("2025-{month:02}-{day:02}"))
        };
        let all: Vec<Backup> = days(1, 31)
            .chain(days(2, 28))
            .chain(days(3, 15))
            .map(|day| Backup { file: format!("backups/studio-{day}.sqlite").into(), day })
            .collect();
        let gone = expired(&all);
        let kept: Vec<&str> =
            all.iter().filter(|one| !gone.contains(one)).map(|one| one.day.as_str()).collect();
        assert_eq!(kept.len(), 32, "{kept:?}");
        assert_eq!(kept[0], "2025-01-01");
        assert_eq!(kept[1], "2025-02-01");
        assert_eq!(kept[2], "2025-02-14");
        assert_eq!(kept[31], "2025-03-15");
    }
}
