//! The studio's record as window and verbs use it: where it is, what day it is, what a plan
//! tells of a work.

use std::path::{Path, PathBuf};
use std::time::{SystemTime, UNIX_EPOCH};

use crate::state::Keep;
use sha2::{Digest, Sha256};
use sightedge_core::spec::{Document, Recorded};
use sightedge_studio::{
    Edition, Kind, NewFormat, NewWork, Notation, Opened, Print, Work, open,
};

/// Where the record is kept: in the person's folder of data, or in `$SIGHTEDGE_STATE` with all
/// else that is remembered.
pub fn default_folder() -> Option<PathBuf> {
    if let Some(own) = std::env::var_os("SIGHTEDGE_STATE").filter(|own| !own.is_empty()) {
        return Some(PathBuf::from(own).join("studio"));
    }
    let dirs = directories::BaseDirs::new()?;
    Some(sightedge_studio::default_folder_in(dirs.data_local_dir()))
}

/// Where the window keeps it: there too, unless it remembers things in a folder of a caller's.
pub fn folder(keep: &Keep) -> Option<PathBuf> {
    if keep.file("studio") == Keep::usual().file("studio") {
        default_folder()
    } else {
        keep.file("studio")
    }
}

/// Today's date, at Greenwich: 2025-11-30.
pub fn today() -> String {
    let since = SystemTime::now().duration_since(UNIX_EPOCH).unwrap_or_default();
    let days = i64::try_from(since.as_secs() / 86_400).unwrap_or_default();
    let (year, month, day) = civil(days);
    format!("{year:04}-{month:02}-{day:02}")
}

/// The date so many days after 1 January 1970.
/// Source: the Gregorian calendar: 146 097 days in 400 years, which begin in March so that the
/// leap day comes last.
fn civil(days: i64) -> (i64, i64, i64) {
    let days = days + 719_468;
    let era = days.div_euclid(146_097);
    let day_of_era = days.rem_euclid(146_097);
    let year_of_era =
        (day_of_era - day_of_era / 1460 + day_of_era / 36_524 - day_of_era / 146_096) / 365;
    let day_of_year = day_of_era - (365 * year_of_era + year_of_era / 4 - year_of_era / 100);
    let from_march = (5 * day_of_year + 2) / 153;
    let day = day_of_year - (153 * from_march + 2) / 5 + 1;
    let month = if from_march < 10 { from_march + 3 } else { from_march - 9 };
    let year = year_of_era + era * 400 + i64::from(month <= 2);
    (year, month, day)
}

/// Opens the record and makes the day's backup of it. A backup that cannot be made is told,
/// and stops nothing.
///
/// # Errors
/// Says what was found and what to do.
pub fn opened(folder: &Path) -> Result<(Opened, Option<String>), sightedge_studio::Error> {
    let today = today();
    let opened = open(folder, &today)?;
    let told = opened
        .back_up(&today)
        .err()
        .map(|error| format!("the day's backup of the record could not be made: {error}"));
    Ok((opened, told))
}

/// What a plan tells of its work, and of the size it is printed in.
pub fn of_plan(document: &Document, plan: Option<&Path>) -> (NewWork, NewFormat) {
    let work = document.works.first();
    let variant = document.chosen();
    let paper = variant.and_then(|variant| variant.mat.behind.paper.as_ref());
    let picture = work.map(|work| work.picture.path.clone()).unwrap_or_default();
    let stem = || {
        let name = Path::new(&picture).file_stem().and_then(|stem| stem.to_str());
        name.unwrap_or_default().replace(['-', '_'], " ")
    };
    let title = work
        .map(|work| work.title.clone())
        .filter(|title| !title.is_empty())
        .unwrap_or_else(stem);
    let beside = plan.map(|plan| crate::files::picture_of(plan, &picture));
    let what = NewWork {
        title,
        paper: paper.map(|paper| paper.name.clone()).unwrap_or_default(),
        picture: beside.map_or(picture.clone(), |path| path.to_string_lossy().into_owned()),
        sha256: work.map(|work| work.picture.sha256.clone()).unwrap_or_default(),
        ..NewWork::default()
    };
    let format = work.map(|work| NewFormat::new("", work.image.size, work.sheet));
    (what, format.unwrap_or_default())
}

/// What the record knows of a print, for what is written on it.
pub fn recorded(work: &Work, edition: &Edition, kind: Kind, number: u32) -> Recorded {
    let NewWork { title, maker, taken, printed, .. } = &work.what;
    Recorded {
        title: title.clone(),
        maker: maker.clone(),
        taken: *taken,
        printed: *printed,
        notation: Some(Notation { kind, number, of: edition.what.count(kind) }),
        numerals: edition.what.numerals(),
    }
}

/// A digest of what the record says of a print, to be held against it later: SHA-256 of these
/// lines in lower-case hexadecimal.
pub fn digest(work: &Work, edition: &Edition, print: &Print) -> String {
    let NewWork { title, maker, taken, printed, medium, paper, sha256, .. } = &work.what;
    let year = |year: &Option<i64>| year.map(|year| year.to_string()).unwrap_or_default();
    let lines = [
        work.catalogue.clone(),
        title.clone(),
        maker.clone(),
        year(taken),
        year(printed),
        medium.clone(),
        paper.clone(),
        sha256.clone(),
        edition.what.notation(print.kind, print.number),
        print.id.0.to_string(),
    ];
    let mut hash = Sha256::new();
    for line in lines {
        // Its length first, so that no two records run into one text.
        hash.update(format!("{}:{line}\n", line.len()));
    }
    hash.finalize().iter().fold(String::new(), |text, byte| format!("{text}{byte:02x}"))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Source: the Gregorian calendar; POSIX's own example days.
    #[test]
    fn days_are_dates() {
        assert_eq!(civil(0), (1970, 1, 1));
        assert_eq!(civil(-1), (1969, 12, 31));
        assert_eq!(civil(11_016), (2000, 2, 29));
        assert_eq!(civil(11_017), (2000, 3, 1));
        assert_eq!(civil(20_422), (2025, 11, 30));
        assert_eq!(civil(47_540), (2100, 2, 28));
        assert_eq!(civil(47_541), (2100, 3, 1));
        assert_eq!(today().len(), 10);
    }
}
