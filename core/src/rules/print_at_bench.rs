//! Where the print at the bench is by the studio's record.
//!
//! Where a print is changes without the plan, and is no part of it: it comes as an argument, from
//! whoever has read the record. So this is not one of [`super::RULES`].

use crate::command::Command;
use crate::finding::{Amount, Finding, Place, Remedy, Severity};
use crate::spec::Inscribed;

/// As in the headless output.
pub const PRINT_AT_BENCH: &str = "print-at-bench";

/// Where a print is, as far as the bench asks.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Whereabouts<'a> {
    /// It can be matted.
    Here,
    /// Somebody bought it; `buyer` as the record names them, empty where it does not.
    Sold {
        /// Who.
        buyer: &'a str,
    },
    /// It was destroyed.
    Destroyed,
    /// Its number was given in error and is free again.
    Voided,
}

/// The print at the bench.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct AtBench<'a> {
    /// Its number as it is written: 3/25.
    pub number: &'a str,
    /// Where it is.
    pub is: Whereabouts<'a>,
    /// The print to take instead: its number, and what is written on it.
    pub instead: Option<(&'a str, &'a Inscribed)>,
}

/// A Fault where the print at the bench is destroyed or its number voided; a Note where it is
/// sold, for prints are often framed after they are sold.
pub fn print_at_bench(print: &AtBench<'_>) -> Option<Finding> {
    let AtBench { number, is, instead } = *print;
    let (severity, found, message) = match is {
        Whereabouts::Here => return None,
        Whereabouts::Sold { buyer } => {
            let to = if buyer.is_empty() {
                "to a buyer the record does not name".to_owned()
            } else {
                format!("to {buyer}")
            };
            let what = format!(
                "“{number}”, the print at the bench, is sold {to}. Go on if you are matting \
                 it for its buyer; if not, take another print."
            );
            (Severity::Note, "sold", what)
        }
        Whereabouts::Destroyed => (
            Severity::Fault,
            "destroyed",
            format!(
                "The record says that “{number}”, the print at the bench, was destroyed. Take \
                 another print, replace this one in the record, or correct the record if the \
                 print still exists."
            ),
        ),
        Whereabouts::Voided => (
            Severity::Fault,
            "voided",
            format!(
                "“{number}”, the print at the bench, was voided: no print has that number, \
                 and none may be signed with it. Take another print, or issue the number \
                 again."
            ),
        ),
    };
    let remedy = instead.map(|(number, inscribed)| Remedy {
        words: format!("Take “{number}” to the bench"),
        command: Command::SetInscribed(Some(Box::new(inscribed.clone()))),
    });
    Some(Finding {
        rule: PRINT_AT_BENCH,
        severity,
        place: Place::default(),
        measured: Amount::Word(found),
        required: Amount::Word("in the studio"),
        source: "the studio's record",
        message,
        remedy,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::spec::{Lettering, Recorded};

    #[track_caller]
    fn case(is: Whereabouts<'_>, severity: Option<Severity>, words: &str) {
        let found = print_at_bench(&AtBench { number: "3/25", is, instead: None });
        assert_eq!(found.as_ref().map(|found| found.severity), severity);
        let message = found.map(|found| found.message).unwrap_or_default();
        assert!(message.starts_with(words), "{message}");
    }

    #[test]
    fn what_stops_and_what_is_noted() {
        case(Whereabouts::Here, None, "");
        let sold = Whereabouts::Sold { buyer: "B. of Ostmere" };
        let words = "“3/25”, the print at the bench, is sold to B. of Ostmere. Go on if";
        case(sold, Some(Severity::Note), words);
        let words =
            "“3/25”, the print at the bench, is sold to a buyer the record does not name";
        case(Whereabouts::Sold { buyer: "" }, Some(Severity::Note), words);
        let words = "The record says that “3/25”, the print at the bench, was destroyed.";
        case(Whereabouts::Destroyed, Some(Severity::Fault), words);
        let words = "“3/25”, the print at the bench, was voided: no print has that number";
        case(Whereabouts::Voided, Some(Severity::Fault), words);
    }

    #[test]
    fn another_print_is_the_way_out() {
        let recorded = Recorded { print: Some(4), ..Recorded::default() };
        let inscribed = Inscribed { lettering: Lettering::default(), recorded };
        let instead = Some(("4/25", &inscribed));
        let print = AtBench { number: "3/25", is: Whereabouts::Voided, instead };
        let remedy = print_at_bench(&print).unwrap().remedy.unwrap();
        assert_eq!(remedy.words, "Take “4/25” to the bench");
        assert_eq!(remedy.command, Command::SetInscribed(Some(Box::new(inscribed))));
    }

    #[test]
    fn in_words() {
        #[track_caller]
        fn case(is: Whereabouts<'_>, message: &str) {
            let found = print_at_bench(&AtBench { number: "3/25", is, instead: None });
            reads(&found.unwrap(), message, "");
        }
        case(
            Whereabouts::Sold { buyer: "B. of Ostmere" },
            "“3/25”, the print at the bench, is sold to B. of Ostmere. Go on if you are \
             matting it for its buyer; if not, take another print.",
        );
        case(
            Whereabouts::Destroyed,
            "The record says that “3/25”, the print at the bench, was destroyed. Take another \
             print, replace this one in the record, or correct the record if the print still \
             exists.",
        );
        case(
            Whereabouts::Voided,
            "“3/25”, the print at the bench, was voided: no print has that number, and none \
             may be signed with it. Take another print, or issue the number again.",
        );
    }

    use super::super::testing::reads;
}
