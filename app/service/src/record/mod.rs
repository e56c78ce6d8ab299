//! The studio's record as window and commands use it: each change of it once, with its checks and
//! its words, in one transaction.

pub mod at_bench;
mod correct;
mod correct_print;
mod home;
mod issue;
mod moving;
mod numbers;
mod outputs;
mod plan;
mod prices;
pub mod printouts;
mod register;
mod search;
#[cfg(test)]
mod tests;
mod wording;

use std::collections::BTreeMap;
use std::path::Path;
use std::time::Duration;

use sha2::{Digest, Sha256};
use sightedge_core::spec::Recorded;
use sightedge_studio::{
    Edition, Kind, Money, NewWork, Notation, Opened, Print, PrintId, State, Sums, Work, open,
};

pub use correct::{Corrected, Correcting, EditionTerms, correct, correct_back};
pub use correct_print::{PrintCorrection, correct_print};
pub use home::{Home, Lost};
pub use issue::{Issued, Issuing, issue};
pub use moving::{
    Doing, Going, Renamed, change_print, holding, keeps_place, question_before, rename_show,
    several, several_back,
};
pub use numbers::{numbers, numbers_in_words};
pub use outputs::{folder_for_printouts, keep_folder_for_printouts};
pub use plan::{PlanOfPrint, of_plan, same_size};
pub use prices::{price_hint, prices_in_words};
pub use register::{Registering, register};
pub use search::{Withdrawn, found, sought};
pub use wording::{details_in_words, entry_in_words, size_in_words, where_it_is};

/// A backup of the day that is older is made anew when the record is opened.
const HOUR: Duration = Duration::from_hours(1);

pub use sightedge_studio::when_waiting;

/// Today, as the record writes it.
pub fn today() -> String {
    crate::dates::today().to_string()
}

/// Opens the record and makes the day's backup of it. A backup that cannot be made is told,
/// and stops nothing.
///
/// # Errors
/// Says what was found and what to do.
pub fn opened(folder: &Path) -> Result<(Opened, Option<String>), sightedge_studio::Error> {
    let today = today();
    let opened = open(folder, &today)?;
    let told = opened.back_up_anew(&today, HOUR).err().map(|error| not_backed_up(&error));
    Ok((opened, told))
}

/// Whether a folder holds a record, or backups of one.
pub fn is_record(folder: &Path) -> bool {
    folder.join(sightedge_studio::FILE).exists()
        || !sightedge_studio::backups(folder).is_empty()
}

/// Where a damaged record is kept after another took its place; nothing where there was none.
pub fn kept_as(kept: &Path) -> String {
    if kept.exists() {
        format!("; what was damaged is kept as {}", kept.display())
    } else {
        String::new()
    }
}

/// That there is no new backup, and why.
pub fn not_backed_up(error: &sightedge_studio::Error) -> String {
    format!("the day's backup of the record could not be made: {error}")
}

/// What was taken and what is offered, in words, a line each.
pub fn sums_in_words(sums: &[Sums]) -> Vec<String> {
    let line = |count: u32, with: &str, cents: i64, currency: &str| {
        let money = Money { cents, currency: currency.to_owned() };
        (count > 0).then(|| format!("{count} {with} {money}"))
    };
    let bare = |count: u32, what: &str| (count > 0).then(|| format!("{count} {what}"));
    let both = |sum: &Sums| match sum.currency.as_str() {
        "" => [
            bare(sum.sold, "sold, the price not noted"),
            bare(sum.offered, "in hand without a price"),
        ],
        currency => [
            line(sum.sold, "sold for", sum.sold_cents, currency),
            line(sum.offered, "offered at", sum.offered_cents, currency),
        ],
    };
    sums.iter().flat_map(both).flatten().collect()
}

/// What these prints come to, a currency each, those without a price under an empty one.
pub fn sums_of<'a>(prints: impl Iterator<Item = &'a Print>) -> Vec<Sums> {
    let mut all: BTreeMap<&str, Sums> = BTreeMap::new();
    for print in prints {
        let price = print.now.price.as_ref();
        let currency = price.map_or("", |price| price.currency.as_str());
        let sum = all.entry(currency).or_insert_with(|| Sums {
            currency: currency.to_owned(),
            sold: 0,
            sold_cents: 0,
            offered: 0,
            offered_cents: 0,
        });
        let cents = price.map_or(0, |price| price.cents);
        let (count, total) = match print.now.state {
            State::Sold => (&mut sum.sold, &mut sum.sold_cents),
            State::Studio | State::Show | State::Returned => {
                (&mut sum.offered, &mut sum.offered_cents)
            }
            // Neither sold nor to be had.
            State::Unknown | State::Destroyed | State::Voided => continue,
        };
        *count += 1;
        *total = total.saturating_add(cents);
    }
    // Those without a price come last, as in the record.
    let bare = all.remove("");
    all.into_values().chain(bare).collect()
}

/// What the record knows of a print, for what is written on it; `print` where it is issued.
pub fn recorded(
    work: &Work,
    edition: &Edition,
    kind: Kind,
    number: u32,
    print: Option<PrintId>,
) -> Recorded {
    let NewWork { title, maker, taken, printed, .. } = &work.what;
    Recorded {
        title: title.clone(),
        maker: maker.clone(),
        taken: *taken,
        printed: *printed,
        notation: Some(Notation { kind, number, of: edition.what.count(kind) }),
        numerals: edition.what.numerals(),
        print: print.and_then(|id| u32::try_from(id.0).ok()),
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
