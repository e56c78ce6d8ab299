//! The record that a word is asked of, and what is named in it.

use sightedge_studio::{Edition, EditionRow, Notation, Opened, Print, Record, Work, WorkRow};

use super::super::outcome::CliError;
use super::given::OneEdition;
use super::notation;

/// Whether they are the same but for capital letters.
fn same_catalogue(one: &str, other: &str) -> bool {
    one.trim().to_lowercase() == other.trim().to_lowercase()
}

/// The record that is asked.
pub(super) struct Asked {
    pub(super) opened: Opened,
}

impl Asked {
    pub(super) fn record(&mut self) -> &mut dyn Record {
        self.opened.record()
    }

    /// The work of that catalogue number; where none is called just so, of the one that differs
    /// by capital letters alone.
    pub(super) fn work(&self, wanted: &str) -> Result<WorkRow, CliError> {
        let all = self.opened.read().index()?;
        let exact = all.iter().position(|row| row.work.catalogue == wanted);
        let same = || all.iter().position(|row| same_catalogue(&row.work.catalogue, wanted));
        let found = exact.or_else(same).and_then(|at| all.into_iter().nth(at));
        found.ok_or_else(|| {
            CliError::unreadable(format!(
                "there is no work {wanted} in {}: sightedge edition list names those there are",
                self.opened.folder().display()
            ))
        })
    }

    /// An edition of that work: the only one, the one asked for, or the only one whose count the
    /// number names, as 3/25 does.
    pub(super) fn edition(
        &self,
        work: &str,
        number: Option<&str>,
        one: &OneEdition,
    ) -> Result<(Work, Edition), CliError> {
        let row = self.work(work)?;
        let catalogue = &row.work.catalogue;
        let ids = || -> Vec<String> {
            row.editions.iter().map(|one| one.edition.id.0.to_string()).collect()
        };
        let asked = one.edition.as_deref();
        let found = match (asked, row.editions.as_slice()) {
            (None, [one]) => Some(one),
            (None, []) => {
                return Err(CliError::unreadable(format!(
                    "{catalogue} has no edition: open one with sightedge edition new --of \
                     {catalogue} --size N"
                )));
            }
            (None, all) => match number.and_then(|number| named_by(number, all)) {
                Some(found) => Some(found),
                None => {
                    return Err(CliError::usage(format!(
                        "{catalogue} has several editions: say which one with --in {}",
                        ids().join(" or ")
                    )));
                }
            },
            (Some(id), all) => all.iter().find(|one| one.edition.id.0.to_string() == id),
        };
        let found = found.ok_or_else(|| {
            CliError::unreadable(format!(
                "{catalogue} has no edition {}: it has {}",
                asked.unwrap_or_default(),
                ids().join(", ")
            ))
        })?;
        Ok((row.work.clone(), found.edition.clone()))
    }

    /// Where prints are shown, in words.
    pub(super) fn shows(&self) -> Result<String, CliError> {
        let shows = self.opened.read().shows()?;
        let names: Vec<&str> = shows.iter().map(|(name, _)| name.as_str()).collect();
        Ok(if names.is_empty() {
            "no print is at a show".to_owned()
        } else {
            format!("prints are at {}", names.join(", "))
        })
    }

    /// The print of that work which holds the number.
    pub(super) fn print(
        &self,
        work: &str,
        number: &str,
        one: &OneEdition,
    ) -> Result<(Work, Edition, Print), CliError> {
        let (work, edition) = self.edition(work, Some(number), one)?;
        let named = notation(number)?;
        let of = edition.what.count(named.kind);
        if named.of != 0 && named.of != of && !named.kind.single() {
            return Err(CliError::usage(format!(
                "\"{number}\" is of another edition: this one's are written {}",
                edition.what.notation(named.kind, named.number)
            )));
        }
        let prints = self.opened.read().prints(edition.id)?;
        let mut held = prints.into_iter().filter(|print| print.live);
        let print = held
            .find(|print| print.kind == named.kind && print.number == named.number)
            .ok_or_else(|| {
                CliError::unreadable(format!(
                    "{} {number} is not issued: issue it first",
                    work.catalogue
                ))
            })?;
        Ok((work, edition, print))
    }
}

/// The only edition whose count the number names.
fn named_by<'a>(number: &str, editions: &'a [EditionRow]) -> Option<&'a EditionRow> {
    let named = Notation::read(number)?.0;
    let mut of = editions
        .iter()
        .filter(|one| !named.kind.single() && named.of == one.edition.what.count(named.kind));
    of.next().filter(|_| of.next().is_none())
}
