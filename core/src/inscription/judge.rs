//! What would be regretted of an inscription.

use super::{Back, CLEAR, Front, Inscription, Recorded, Wish};
use crate::catalogue::{Kind, Notation, Numerals};
use crate::derived::Derived;
use crate::finding::{Amount, Finding, Place, Severity};
use crate::geometry::{Rect, Side};
use crate::layout::Window;
use crate::length::Length;
use crate::spec::Document;

pub(super) fn judge(
    document: &Document,
    derived: &Derived,
    window: &Window,
    recorded: &Recorded,
    wish: &Wish,
    made: &Inscription,
) -> Vec<Finding> {
    let told = Told { document, window };
    let mut findings = Vec::new();
    on_front(&told, derived, wish, made, &mut findings);
    on_back(&told, derived, wish, made, &mut findings);
    against_record(&told, recorded, wish, &mut findings);
    findings.sort_by_key(|finding| std::cmp::Reverse(finding.severity));
    findings
}

struct Told<'a> {
    document: &'a Document,
    window: &'a Window,
}

impl Told<'_> {
    fn finding(
        &self,
        rule: &'static str,
        severity: Severity,
        side: Option<Side>,
        (measured, required): (Amount, Amount),
        source: &'static str,
        message: String,
    ) -> Finding {
        let place = Place { side, ..Place::window(self.window) };
        Finding { rule, severity, place, measured, required, source, message, remedy: None }
    }

    fn text(&self, length: Length) -> String {
        length.text(self.document.unit)
    }
}

/// How far `place` stands out of `within`, and at which side it does most.
fn out_of(place: Rect, within: Rect) -> Option<(Side, Length)> {
    let room = place.within(within);
    let (side, least) = room.each().into_iter().min_by_key(|(_, room)| *room)?;
    least.is_negative().then_some((side, -least))
}

fn lengths(measured: Length, required: Length) -> (Amount, Amount) {
    (Amount::Length(measured), Amount::Length(required))
}

fn on_front(
    told: &Told<'_>,
    derived: &Derived,
    wish: &Wish,
    made: &Inscription,
    findings: &mut Vec<Finding>,
) {
    let board = Rect::at_origin(derived.layout.exact.outer);
    let lip = derived.behind.package.as_ref().and_then(|packed| packed.framed.as_ref());
    for one in &made.front {
        let what = if one.sign { "The place to sign" } else { "The number" };
        match wish.front {
            Front::Nothing => {}
            Front::Margin => {
                if let Some((side, out)) = out_of(one.place, told.window.sight) {
                    findings.push(told.finding(
                        "inscription-hidden",
                        Severity::Stop,
                        Some(side),
                        lengths(out, Length::ZERO),
                        "derived from the window and the hand's height",
                        format!(
                            "{what} under the picture lies under the mat by {}. Show more paper \
                             there, or write on the mat.",
                            told.text(out)
                        ),
                    ));
                }
            }
            Front::Mat => {
                if let Some((side, out)) = out_of(one.place, board) {
                    findings.push(told.finding(
                        "inscription-hidden",
                        Severity::Stop,
                        Some(side),
                        lengths(out, Length::ZERO),
                        "derived from the board and the hand's height",
                        format!(
                            "{what} stands off the board by {}. Widen the border, or write in \
                             the margin.",
                            told.text(out)
                        ),
                    ));
                } else if let Some(framed) = lip {
                    let seen = board.inset(framed.hidden);
                    if let Some((side, out)) = out_of(one.place, seen) {
                        findings.push(told.finding(
                            "inscription-lip",
                            Severity::Stop,
                            Some(side),
                            lengths(out, Length::ZERO),
                            "derived from lip and allowance",
                            format!(
                                "The frame's lip hides {} of {} on the mat. Widen the border, \
                                 or write in the margin.",
                                told.text(out),
                                what.to_lowercase()
                            ),
                        ));
                    }
                }
            }
        }
    }
}

fn on_back(
    told: &Told<'_>,
    derived: &Derived,
    wish: &Wish,
    made: &Inscription,
    findings: &mut Vec<Finding>,
) {
    let window = told.window;
    let plan = derived.behind.sheets.first().map(|sheet| &sheet.hinges);
    for one in &made.back {
        if let Some((side, out)) = out_of(one.place, window.sheet) {
            findings.push(told.finding(
                "inscription-hidden",
                Severity::Stop,
                Some(side),
                lengths(out, Length::ZERO),
                "derived from the sheet and the hand's height",
                format!(
                    "\"{}\" on the back stands off the sheet by {}. Shorten it, or part it in \
                     two lines.",
                    one.text,
                    told.text(out)
                ),
            ));
        }
        let hinges = plan.map(|plan| plan.hinges.as_slice()).unwrap_or_default();
        let met = hinges
            .iter()
            .any(|hinge| hinge.tab.meet(one.place).is_some_and(|both| both.size.is_positive()));
        if met {
            findings.push(told.finding(
                "inscription-hinge",
                Severity::Caution,
                Some(Side::Top),
                (Amount::Word("under a hinge"), Amount::Word("clear of hinges")),
                "common practice",
                format!("\"{}\" on the back lies under a hinge. Write fewer lines.", one.text),
            ));
        }
    }
    if made.behind_image && wish.behind == Back::Margin {
        let margin = window.sheet.bottom() - window.image.bottom();
        let lines = i64::try_from(made.back.len()).unwrap_or(0);
        let needed = super::LINE * lines + CLEAR * 2;
        findings.push(told.finding(
            "inscription-behind-image",
            Severity::Note,
            Some(Side::Bottom),
            lengths(margin, needed),
            "common practice; the hand's height from memory",
            format!(
                "The margin below is {}, and {lines} lines want {}: they lie behind the image. \
                 Press lightly; it may show on the face.",
                told.text(margin),
                told.text(needed)
            ),
        ));
    }
}

/// The number that stands there against the record's.
fn against_record(
    told: &Told<'_>,
    recorded: &Recorded,
    wish: &Wish,
    findings: &mut Vec<Finding>,
) {
    let stands = wish.stands.trim();
    let Some(wanted) = recorded.notation.filter(|_| !stands.is_empty()) else { return };
    let written = wanted.text(recorded.numerals);
    let word = (Amount::Word("another number"), Amount::Word("the record's"));
    let read = Notation::read(stands);
    if read.map(|read| read.0) != Some(wanted) {
        findings.push(told.finding(
            "inscription-record",
            Severity::Stop,
            None,
            word,
            "the studio's record",
            format!(
                "\"{stands}\" stands on it, and the record says {written}: a buyer goes by what \
                 is written. Correct the one that is wrong."
            ),
        ));
        return;
    }
    let numerals = read.map_or(Numerals::Roman, |read| read.1);
    let plain = wanted.kind == Kind::Numbered || wanted.kind.single();
    if !plain && numerals != recorded.numerals {
        findings.push(told.finding(
            "inscription-numerals",
            Severity::Caution,
            None,
            (Amount::Word(numerals.key()), Amount::Word(recorded.numerals.key())),
            "the studio's record; galleries' print guides",
            format!(
                "\"{stands}\" stands on it, and this edition's proofs are written {written}: \
                 keep to one way."
            ),
        ));
    }
}
