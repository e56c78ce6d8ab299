//! What was asked for behind `sightedge edition WORD`, found in the record.

use sightedge_studio::{
    Edition, EditionRow, Notation, Note, Opened, Print, Record, Work, WorkRow,
};

use super::super::options::Options;
use super::super::outcome::CliError;
use super::notation;

/// Whether they are the same but for capital letters.
fn same_catalogue(one: &str, other: &str) -> bool {
    one.trim().to_lowercase() == other.trim().to_lowercase()
}

/// What was asked for, and the record it is asked of.
pub(super) struct Asked<'a> {
    pub(super) options: &'a Options,
    /// The words behind the first.
    pub(super) rest: Vec<String>,
    pub(super) opened: Opened,
    pub(super) note: Note,
}

impl Asked<'_> {
    pub(super) fn record(&mut self) -> &mut dyn Record {
        self.opened.record()
    }

    pub(super) fn json(&self) -> bool {
        self.options.has("json")
    }

    /// No more words than are wanted.
    pub(super) fn at_most(&self, most: usize) -> Result<(), CliError> {
        match self.rest.get(most) {
            None => Ok(()),
            Some(odd) => Err(CliError::usage(format!(
                "\"{odd}\" is one word too many: values with spaces go in quotes; see \
                 sightedge edition --help"
            ))),
        }
    }

    /// The work of the catalogue number that comes first.
    pub(super) fn work(&self) -> Result<WorkRow, CliError> {
        let Some(wanted) = self.rest.first() else {
            return Err(CliError::usage(
                "a work is wanted, by its catalogue number such as W0012: sightedge edition \
                 list names them",
            ));
        };
        self.called(wanted)
    }

    /// The work of that catalogue number; where none is called just so, of the one that differs
    /// by capital letters alone.
    pub(super) fn called(&self, wanted: &str) -> Result<WorkRow, CliError> {
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

    /// Its edition: the only one, the one asked for, or the only one whose count the number
    /// behind the work names, as 3/25 does.
    pub(super) fn edition(&self) -> Result<(Work, Edition), CliError> {
        let row = self.work()?;
        let catalogue = &row.work.catalogue;
        let ids = || -> Vec<String> {
            row.editions.iter().map(|one| one.edition.id.0.to_string()).collect()
        };
        let asked = self.options.text("in")?;
        let found = match (asked, row.editions.as_slice()) {
            (None, [one]) => Some(one),
            (None, []) => {
                return Err(CliError::unreadable(format!(
                    "{catalogue} has no edition: open one with sightedge edition new --of \
                     {catalogue} --size N"
                )));
            }
            (None, all) if self.named_by_number(all).is_some() => self.named_by_number(all),
            (None, _) => {
                return Err(CliError::usage(format!(
                    "{catalogue} has several editions: say which one with --in {}",
                    ids().join(" or ")
                )));
            }
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

    fn named_by_number<'a>(&self, editions: &'a [EditionRow]) -> Option<&'a EditionRow> {
        let named = Notation::read(self.rest.get(1)?)?.0;
        let mut of = editions.iter().filter(|one| {
            !named.kind.single() && named.of == one.edition.what.count(named.kind)
        });
        of.next().filter(|_| of.next().is_none())
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

    /// The print that holds the number behind the work; `as_in` shows how the whole is typed.
    pub(super) fn print(&self, as_in: &str) -> Result<(Work, Edition, Print), CliError> {
        let (work, edition) = self.edition()?;
        let Some(which) = self.rest.get(1) else {
            return Err(CliError::usage(format!(
                "a number is wanted, as it is written: sightedge edition {as_in}"
            )));
        };
        let named = notation(which)?;
        let of = edition.what.count(named.kind);
        if named.of != 0 && named.of != of && !named.kind.single() {
            return Err(CliError::usage(format!(
                "\"{which}\" is of another edition: this one's are written {}",
                edition.what.notation(named.kind, named.number)
            )));
        }
        let prints = self.opened.read().prints(edition.id)?;
        let mut held = prints.into_iter().filter(|print| print.live);
        let print = held
            .find(|print| print.kind == named.kind && print.number == named.number)
            .ok_or_else(|| {
                CliError::unreadable(format!(
                    "{} {which} is not issued: issue it first",
                    work.catalogue
                ))
            })?;
        Ok((work, edition, print))
    }
}
