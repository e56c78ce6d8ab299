//! The prints of a plan by the studio's record: which one is at the bench, which is proposed.
//! Window and commands share it.

use std::collections::BTreeMap;

use sightedge_core::catalogue::Numerals;
use sightedge_core::finding::Finding;
use sightedge_core::geometry::Size;
use sightedge_core::length::Unit;
use sightedge_core::rules::{AtBench, Whereabouts, print_at_bench};
use sightedge_core::spec::{Document, Inscribed, Lettering, Recorded};
use sightedge_studio::{
    Edition, EditionId, Error, FILE, NewFormat, Notation, Opened, Print, PrintId, Record, State,
};

use super::printouts::Whole;
use super::{Home, Lost, recorded};
use crate::storage::Storage;

/// The prints of one plan.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct Prints {
    /// Those that hold their number, by kind and number; and the one that the plan names.
    list: Vec<Whole>,
    /// The sizes of the editions, where the plan has prints of several.
    sizes: BTreeMap<EditionId, NewFormat>,
    /// What they are written in.
    unit: Unit,
}

/// Why no print is meant by a number.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum Unnamed {
    /// The plan has none of that number.
    None(String),
    /// It has several, each of another edition.
    Several {
        /// Which.
        words: String,
        /// Their editions.
        editions: Vec<EditionId>,
    },
}

impl std::fmt::Display for Unnamed {
    /// As on the command line.
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Self::None(words) => f.write_str(words),
            Self::Several { words, editions } => {
                let with: Vec<_> = editions.iter().map(|id| format!("--in {}", id.0)).collect();
                write!(f, "{words}: say which one with {}", with.join(" or "))
            }
        }
    }
}

/// The record, if there is one. None is begun by asking for it.
///
/// # Errors
/// Says why it cannot be read.
pub fn record_there(storage: &Storage) -> Result<Option<Opened>, String> {
    let home = match Home::of(storage) {
        Ok(home) => home,
        // Where no record can be, none was begun.
        Err(Lost::Nowhere) => return Ok(None),
        Err(lost) => return Err(lost.to_string()),
    };
    home.there().map_err(|lost| lost.to_string())?;
    if !home.folder.join(FILE).exists() {
        return Ok(None);
    }
    super::opened(&home.folder)
        .map(|(opened, _)| Some(opened))
        .map_err(|error| error.to_string())
}

impl Prints {
    /// Asks the record for those of a plan.
    ///
    /// # Errors
    /// Where the record cannot be read.
    pub fn of(record: &dyn Record, document: &Document) -> Result<Self, Error> {
        let (plan, named) = named_by(document);
        Ok(Self { unit: document.unit, ..Self::of_plan(record, plan, named)? })
    }

    /// Those of the plan of that id, which names a print by its id in the record.
    ///
    /// # Errors
    /// Where the record cannot be read.
    pub fn of_plan(record: &dyn Record, plan: &str, named: Option<u32>) -> Result<Self, Error> {
        let named = named.map(|id| PrintId(i64::from(id)));
        let list: Vec<Whole> = record.prints_of_plan(plan, named)?;
        let mut sizes = BTreeMap::new();
        if list.iter().any(|one| one.1.id != list[0].1.id) {
            for (work, edition, _) in &list {
                let Some(id) = edition.what.format else { continue };
                let format = record.formats(work.id)?.into_iter().find(|one| one.id == id);
                sizes.extend(format.map(|format| (edition.id, format.what)));
            }
        }
        Ok(Self { list, sizes, unit: Unit::default() })
    }

    /// Those of one edition, by its id as it is typed.
    ///
    /// # Errors
    /// Says of which editions there are prints.
    pub fn in_edition(mut self, id: &str) -> Result<Self, String> {
        let mut there: Vec<String> =
            self.list.iter().map(|one| one.1.id.0.to_string()).collect();
        there.dedup();
        if !there.iter().any(|one| one == id.trim()) {
            return Err(format!(
                "this plan has no print of edition {id}: it has {}",
                if there.is_empty() {
                    "none of any".to_owned()
                } else {
                    format!("prints of {}", there.join(", "))
                }
            ));
        }
        self.list.retain(|one| one.1.id.0.to_string() == id.trim());
        Ok(self)
    }

    /// Those of that number: more than one where several editions count alike.
    fn matching(&self, wanted: Notation) -> Vec<&Whole> {
        let of = |edition: &Edition| edition.what.count(wanted.kind);
        self.live()
            .filter(|(_, edition, print)| {
                (print.kind, print.number) == (wanted.kind, wanted.number)
                    && (wanted.of == 0 || wanted.kind.single() || wanted.of == of(edition))
            })
            .collect()
    }

    /// The one of `found`; which there are, where there are several.
    fn only<'a>(&self, found: &[&'a Whole]) -> Result<Option<&'a Whole>, Unnamed> {
        let [first, _, ..] = found else { return Ok(found.first().copied()) };
        let each: Vec<String> = found.iter().map(|one| self.of_edition(&one.1)).collect();
        Err(Unnamed::Several {
            words: format!(
                "{} is the number of several prints of this plan, of {}",
                number(first),
                each.join(" and of ")
            ),
            editions: found.iter().map(|one| one.1.id).collect(),
        })
    }

    /// An edition by its id, its name and its size: `edition 2 "large", image 16 in × 20 in`.
    fn of_edition(&self, edition: &Edition) -> String {
        let format = self.sizes.get(&edition.id);
        let name = [edition.what.name.as_str(), format.map_or("", |one| one.name.as_str())]
            .into_iter()
            .find(|name| !name.is_empty());
        let mut words = format!("edition {}", edition.id.0);
        if let Some(name) = name {
            words = format!("{words} “{name}”");
        }
        let Some(format) = format else { return words };
        let size = |size: Size| size.sides_text(|side| side.text(self.unit));
        for part in super::size_in_words(format, size) {
            words = format!("{words}, {part}");
        }
        words
    }

    /// A print and where it is, and of which edition where another has its number.
    pub fn told(&self, one: &Whole) -> String {
        let same = |other: &Whole| other.2.id != one.2.id && number(other) == number(one);
        let words = told(one);
        if one.2.live && self.live().any(same) {
            format!("{words} ({})", self.of_edition(&one.1))
        } else {
            words
        }
    }

    /// Whether the plan has none.
    pub fn is_empty(&self) -> bool {
        self.list.is_empty()
    }

    /// Those that hold their number, by kind and number.
    pub fn live(&self) -> impl Iterator<Item = &Whole> {
        self.list.iter().filter(|one| one.2.live)
    }

    /// The one to be matted next: the lowest number in the studio that is not matted yet.
    pub fn proposed(&self) -> Option<&Whole> {
        self.live().find(|one| Self::to_be_matted(&one.2))
    }

    /// Whether a print is in the studio and not matted yet.
    pub fn to_be_matted(print: &Print) -> bool {
        let here = matches!(print.now.state, State::Studio | State::Returned);
        print.live && here && print.now.matted.is_empty()
    }

    /// The one that the plan has at the bench. A new print that replaced it is in its place;
    /// `None` also where several have the number that the plan says.
    pub fn at_bench(&self, document: &Document) -> Option<&Whole> {
        self.one_at_bench(document).ok().flatten()
    }

    /// The same.
    ///
    /// # Errors
    /// Several have the number that the plan says: which.
    pub fn one_at_bench(&self, document: &Document) -> Result<Option<&Whole>, Unnamed> {
        let Some(own) = document.inscribed.as_ref().map(|own| &own.recorded) else {
            return Ok(None);
        };
        match (own.print, own.notation) {
            (Some(id), _) => Ok(self.or_its_replacement(id)),
            // A number that was typed by hand, or kept before plans named their print.
            (None, Some(number)) => self.only(&self.matching(number)),
            (None, None) => Ok(None),
        }
    }

    fn or_its_replacement(&self, id: u32) -> Option<&Whole> {
        let named = self.list.iter().find(|one| one.2.id.0 == i64::from(id))?;
        let Print { edition, kind, number, live, .. } = named.2;
        if live || named.2.now.state != State::Destroyed {
            return Some(named);
        }
        let new =
            |one: &&Whole| (one.2.edition, one.2.kind, one.2.number) == (edition, kind, number);
        self.live().find(new).or(Some(named))
    }

    /// What the plan says of its print with the one in it that is at the bench: where the record
    /// knows it by another id than the plan does. `None` where both agree.
    pub fn followed(&self, document: &Document) -> Option<Inscribed> {
        let (_, _, print) = self.at_bench(document)?;
        let own = document.inscribed.as_ref()?;
        let id = u32::try_from(print.id.0).ok();
        (own.recorded.print != id).then(|| {
            let mut own = own.clone();
            own.recorded.print = id;
            own
        })
    }

    /// The print of that number.
    ///
    /// # Errors
    /// Says which there are, and which of them have that number.
    pub fn named(&self, text: &str) -> Result<&Whole, Unnamed> {
        let (wanted, _) = read(text).map_err(Unnamed::None)?;
        self.only(&self.matching(wanted))?.ok_or_else(|| {
            let there: Vec<String> = self.live().map(number).collect();
            Unnamed::None(format!(
                "{text} is not a print of this plan, which has {}: name one of them, or issue it \
                 to this plan first",
                if there.is_empty() { "none".to_owned() } else { there.join(", ") }
            ))
        })
    }

    /// What is to be known of the print at the bench before one goes on; `usual` are the words
    /// of a new inscription.
    pub fn finding(&self, document: &Document, usual: &Lettering) -> Option<Finding> {
        let one = self.at_bench(document)?;
        let now = &one.2.now;
        let is = match now.state {
            State::Sold => Whereabouts::Sold { buyer: &now.buyer },
            State::Destroyed => Whereabouts::Destroyed,
            State::Voided => Whereabouts::Voided,
            State::Studio | State::Show | State::Returned | State::Unknown => Whereabouts::Here,
        };
        let instead = self.proposed().filter(|other| other.2.id != one.2.id);
        let instead = instead.map(|other| (number(other), taken(document, other, usual)));
        let instead = instead.as_ref().map(|(number, made)| (number.as_str(), made));
        print_at_bench(&AtBench { number: &number(one), is, instead })
    }
}

/// What the record is asked by: the plan's id, and that of the print it names.
pub fn named_by(document: &Document) -> (&str, Option<u32>) {
    let named = document.inscribed.as_ref().and_then(|own| own.recorded.print);
    (&document.id, named)
}

/// A print's number as it is written: 3/25.
pub fn number((_, edition, print): &Whole) -> String {
    edition.what.notation(print.kind, print.number)
}

/// A print and where it is: `3/25, sold, B. of Ostmere`.
pub fn told(one: &Whole) -> String {
    let now = &one.2.now;
    let mut words = format!("{}, {}", number(one), super::where_it_is(now));
    let matted =
        if now.matted.is_empty() { String::new() } else { format!("matted {}", now.matted) };
    for more in [&now.buyer, &matted] {
        if !more.is_empty() {
            words = format!("{words}, {more}");
        }
    }
    words
}

/// The plan's inscription with that print at the bench. Words that were decided stay; what was
/// written already on another print is not on this one.
pub fn taken(document: &Document, one: &Whole, usual: &Lettering) -> Inscribed {
    let (work, edition, print) = one;
    let recorded = recorded(work, edition, print.kind, print.number, Some(print.id));
    inscribed(document, recorded, usual)
}

/// The same for what the record knows of a print.
pub fn inscribed(document: &Document, recorded: Recorded, usual: &Lettering) -> Inscribed {
    let had = document.inscribed.as_ref();
    let mut lettering = had.map_or_else(|| usual.clone(), |own| own.lettering.clone());
    let same = had.is_some_and(|own| {
        own.recorded.notation == recorded.notation
            && own.recorded.print.is_none_or(|id| Some(id) == recorded.print)
    });
    if !same {
        lettering.already_written.clear();
    }
    Inscribed { lettering, recorded }
}

/// A number that no record knows, typed by hand.
///
/// # Errors
/// Where it is none.
pub fn typed(document: &Document, text: &str, usual: &Lettering) -> Result<Inscribed, String> {
    let (notation, numerals) = read(text)?;
    let mut made = document
        .inscribed
        .clone()
        .unwrap_or_else(|| Inscribed { lettering: usual.clone(), ..Inscribed::default() });
    if made.recorded.notation != Some(notation) {
        made.lettering.already_written.clear();
        made.recorded.print = None;
    }
    // One that is written alike either way says nothing about proofs.
    if notation.text(Numerals::Roman) != notation.text(Numerals::Fraction) {
        made.recorded.numerals = numerals;
    }
    made.recorded.notation = Some(notation);
    Ok(made)
}

fn read(text: &str) -> Result<(Notation, Numerals), String> {
    Notation::read(text).ok_or_else(|| {
        format!(
            "\"{}\" is not the number of a print: type it as it is written, as in 3/25, AP II/V \
             or BAT",
            text.trim()
        )
    })
}

#[cfg(test)]
mod tests;
