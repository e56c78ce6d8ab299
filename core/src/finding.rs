//! What is wrong with a mat, by how much, and the way out. Numbers first; words come last.

use crate::command::Command;
use crate::geometry::Side;
use crate::length::{Length, Round, Unit};
use crate::spec::{LayerId, OpeningId};
use crate::weight::Weights;

/// How bad it is.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug, Hash)]
pub enum Severity {
    /// Worth knowing.
    Note,
    /// Likely to be regretted.
    Caution,
    /// Will fail.
    Fault,
}

/// Where on the mat. Ordered by window, layer, side; what concerns all of them comes first.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug, Default, Hash)]
pub struct Place {
    /// The window.
    pub opening: Option<OpeningId>,
    /// The layer.
    pub layer: Option<LayerId>,
    /// The side.
    pub side: Option<Side>,
}

/// A measured or wanted quantity.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Amount {
    /// A length.
    Length(Length),
    /// Hundredths of a percent.
    Percent(i64),
    /// Pixels per inch.
    Ppi(u32),
    /// A plain count.
    Count(u32),
    /// Grams.
    Grams(u32),
    /// Newtons for each metre of width.
    NewtonsPerMetre(u32),
    /// What has no measure.
    Word(&'static str),
}

/// A way out: what the button says, and what it does.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Remedy {
    /// As on a button: a verb first.
    pub words: String,
    /// The change.
    pub command: Command,
}

/// One thing that a rule found.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Finding {
    /// The rule's id, as in `overlap`.
    pub rule: &'static str,
    /// How bad.
    pub severity: Severity,
    /// Where.
    pub place: Place,
    /// What was found.
    pub measured: Amount,
    /// What was wanted.
    pub required: Amount,
    /// Where the wanted figure comes from.
    pub source: &'static str,
    /// What is wrong, and why it matters, in a sentence or two with its numbers.
    pub message: String,
    /// A way out, where there is one.
    pub remedy: Option<Remedy>,
}

/// The findings of a change: those it caused, and those that were open before it.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Since<'a> {
    /// New ones, and those that became worse.
    pub brought: Vec<&'a Finding>,
    /// The others.
    pub before: Vec<&'a Finding>,
}

impl<'a> Since<'a> {
    /// `after` held against what was found `before` the change.
    pub fn of(before: &[Finding], after: &'a [Finding]) -> Self {
        let (brought, before) = after.iter().partition(|new| new.is_worse_than(before));
        Self { brought, before }
    }

    /// The verdict on a cut: what it brought about alone.
    pub fn as_cut(&self) -> &'static str {
        match self.brought.iter().map(|finding| finding.severity).max() {
            None => "The cut changes nothing else.",
            Some(Severity::Note) => "With this cut it still passes; worth knowing:",
            Some(Severity::Caution) => "With this cut it still passes, with cautions:",
            Some(Severity::Fault) => "With this cut it no longer passes:",
        }
    }

    /// The head of what was open before.
    pub const BEFORE: &'static str = "Open from before:";
}

impl Finding {
    /// Whether nothing as bad was found there `before`: it is new, graver, or further from what
    /// is required. All that asks whether a change made something worse asks here.
    pub fn is_worse_than(&self, before: &[Self]) -> bool {
        let same = |old: &&Self| old.rule == self.rule && old.place == self.place;
        before.iter().filter(same).all(|old| {
            let further = || match (self.lacks(), old.lacks()) {
                (Some(now), Some(then)) => now > then,
                _ => false,
            };
            self.severity > old.severity || (self.severity == old.severity && further())
        })
    }

    /// How far what was found is from what is required, in the smallest units of both; `None`
    /// where that has no measure.
    fn lacks(&self) -> Option<u64> {
        let apart = |a: u32, b: u32| Some(u64::from(a.abs_diff(b)));
        match (self.measured, self.required) {
            (Amount::Length(a), Amount::Length(b)) => Some(a.units().abs_diff(b.units())),
            (Amount::Percent(a), Amount::Percent(b)) => Some(a.abs_diff(b)),
            (Amount::Ppi(a), Amount::Ppi(b))
            | (Amount::Count(a), Amount::Count(b))
            | (Amount::Grams(a), Amount::Grams(b))
            | (Amount::NewtonsPerMetre(a), Amount::NewtonsPerMetre(b)) => apart(a, b),
            _ => None,
        }
    }

    /// What was found and what is asked for, for reading: with the digits that one can measure
    /// where these show the difference.
    pub fn amounts(&self, unit: Unit, weights: Weights) -> [String; 2] {
        let both = [self.measured, self.required];
        // What moves by less than can be measured is not nothing.
        let hair = |amount: Amount| {
            let length = amount.length().unwrap_or_default();
            length != Length::ZERO && length.rounded(unit, Round::Near) == Length::ZERO
        };
        let fine = both.into_iter().any(hair);
        let shown = both.map(|amount| match amount.length().filter(|_| fine) {
            Some(length) => length.fine(unit),
            None => amount.shown(unit, weights),
        });
        if shown[0] == shown[1] { both.map(|amount| amount.text(unit)) } else { shown }
    }
}

impl Severity {
    /// As in the headless output.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Note => "note",
            Self::Caution => "caution",
            Self::Fault => "fault",
        }
    }

    /// As on screen and paper.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Note => "Note",
            Self::Caution => "Caution",
            Self::Fault => "Fault",
        }
    }
}

impl Amount {
    /// As a length, where it is one.
    pub const fn length(self) -> Option<Length> {
        match self {
            Self::Length(length) => Some(length),
            Self::Percent(_)
            | Self::Ppi(_)
            | Self::Count(_)
            | Self::Grams(_)
            | Self::NewtonsPerMetre(_)
            | Self::Word(_) => None,
        }
    }

    /// For other programs: all of it, in that unit of lengths.
    pub fn text(self, unit: Unit) -> String {
        match self {
            Self::Length(length) => length.text(unit),
            Self::Percent(hundredths) => {
                let sign = if hundredths < 0 { "-" } else { "" };
                let hundredths = hundredths.abs();
                format!("{sign}{}.{:02} %", hundredths / 100, hundredths % 100)
            }
            Self::Ppi(ppi) => format!("{ppi} ppi"),
            Self::Count(count) => count.to_string(),
            Self::Grams(grams) => format!("{grams} g"),
            Self::NewtonsPerMetre(newtons) => format!("{newtons} N/m"),
            Self::Word(word) => word.to_owned(),
        }
    }

    /// For reading: lengths to 1/64 in or 0.1 mm, weights in `weights`.
    fn shown(self, unit: Unit, weights: Weights) -> String {
        match self {
            Self::Length(length) => length.near(unit),
            Self::Grams(grams) => weights.mass(f64::from(grams)),
            Self::NewtonsPerMetre(newtons) => weights.strength(newtons),
            Self::Percent(_) | Self::Ppi(_) | Self::Count(_) | Self::Word(_) => self.text(unit),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn found(rule: &'static str, side: Option<Side>, severity: Severity) -> Finding {
        Finding {
            rule,
            severity,
            place: Place { side, ..Place::default() },
            measured: Amount::Count(0),
            required: Amount::Count(1),
            source: "common practice",
            message: rule.to_owned(),
            remedy: None,
        }
    }

    #[track_caller]
    fn brings(before: &[Finding], new: &Finding, verdict: &str) {
        let mut after = before.to_vec();
        after.retain(|old| old.rule != new.rule || old.place != new.place);
        after.push(new.clone());
        let since = Since::of(before, &after);
        assert_eq!(since.brought, [new]);
        assert!(since.as_cut().starts_with(verdict), "{}", since.as_cut());
    }

    /// A cut is judged by what it brought about: not by a signature that was hidden before it.
    #[test]
    fn what_a_cut_brought_about() {
        use Severity::{Caution, Fault, Note};
        let before = [
            found("inscription-hidden", None, Fault),
            found("overlap", Some(Side::Left), Caution),
            found("resolution", None, Note),
        ];
        let same = Since::of(&before, &before);
        assert!(same.brought.is_empty() && same.before.len() == 3);
        assert_eq!(same.as_cut(), "The cut changes nothing else.");
        let (left, right) = (Some(Side::Left), Some(Side::Right));
        brings(&before, &found("overlap", right, Note), "With this cut it still passes; w");
        brings(
            &before,
            &found("overlap", right, Caution),
            "With this cut it still passes, with",
        );
        brings(&before, &found("overlap", left, Fault), "With this cut it no longer passes");
        // As grave, but further from what is asked for.
        let lacking = |count| Finding {
            measured: Amount::Count(count),
            required: Amount::Count(9),
            ..found("overlap", left, Caution)
        };
        let brought =
            |then: u32, now: u32| Since::of(&[lacking(then)], &[lacking(now)]).brought.len();
        assert_eq!([brought(7, 6), brought(7, 7), brought(6, 7)], [1, 0, 0]);
        // What became milder was there before.
        let milder = [found("overlap", left, Note)];
        assert_eq!(Since::of(&before, &milder).brought.len(), 0);
    }

    #[track_caller]
    fn case(both: [Amount; 2], unit: Unit, wanted: [&str; 2]) {
        let finding = Finding {
            rule: "rule",
            severity: Severity::Note,
            place: Place::default(),
            measured: both[0],
            required: both[1],
            source: "common practice",
            message: String::new(),
            remedy: None,
        };
        assert_eq!(finding.amounts(unit, Weights::of(unit)), wanted);
    }

    /// What is found never reads as what is wanted, and never as nothing.
    #[test]
    fn amounts_for_reading() {
        let inches = |thousandths| Amount::Length(Length::inch_1000ths(thousandths));
        case([inches(637), inches(625)], Unit::Inch, ["41/64 in", "5/8 in"]);
        case([inches(624), inches(625)], Unit::Inch, ["0.624 in", "5/8 in"]);
        case([inches(5), inches(20)], Unit::Inch, ["0.005 in", "0.020 in"]);
        case([inches(60), inches(125)], Unit::Millimetre, ["1.5 mm", "3.2 mm"]);
        let grams = [Amount::Grams(5897), Amount::Grams(23_588)];
        case(grams, Unit::Inch, ["13 lb", "52 lb"]);
        case(grams, Unit::Millimetre, ["5.9 kg", "23.6 kg"]);
        case([Amount::Grams(5897), Amount::Grams(5898)], Unit::Inch, ["5897 g", "5898 g"]);
    }
}
