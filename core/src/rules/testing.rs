//! What the tests of the rules share.

use crate::catalogue::{Kind, Notation, Numerals};
use crate::command::apply;
use crate::derived::derive;
use crate::finding::Finding;
use crate::geometry::Sides;
use crate::length::Unit;
use crate::material::{Humidity, Paper, Rate, Tables};
use crate::sample::plain;
use crate::spec::{
    Assembly, BoardBy, Document, FrameSize, Grain, Hangs, HingeAt, HingeKind, Inscribed,
    Lettering, Mat, Placement, Recorded, Ruler, WindowBy, usual_overlap,
};

pub(super) use crate::sample::{inches, reference, sides, size};

/// A plan in the unit, for a sheet such as `8x10` or `210x297mm`.
pub(super) fn plan(unit: Unit, sheet: &str) -> Document {
    let mut document = plain(sheet);
    document.unit = unit;
    document.ruler = Ruler::usual(unit);
    mat(&mut document).openings[0].window_by =
        WindowBy::Reveal(Sides::all(-usual_overlap(unit)));
    document
}

/// A plan in inches whose hinges sit there, the first one locating.
pub(super) fn hinged_at(sheet: &str, at: &[&str]) -> Document {
    let mut document = plan(Unit::Inch, sheet);
    let hinging = &mut assembly_of(&mut document).hinging;
    // Said, so that the rules of hinges speak even where none is put by hand.
    hinging.slack = Some(crate::hinges::Usual::of(Unit::Inch).slack);
    hinging.kind = Some(HingeKind::T);
    hinging.at =
        at.iter().enumerate().map(|(n, x)| HingeAt { x: inches(x), locates: n == 0 }).collect();
    document
}

/// The worked example of the trade reference: a 17 × 22 in sheet held by 1/8 in, hinged at
/// 50 %, hanging at 30 to 60 %, its hinges 1 in from the left and from the right.
pub(crate) fn worked() -> Document {
    let mut document = hinged_at("17x22", &["1", "16"]);
    let assembly = assembly_of(&mut document);
    assembly.paper = Some(Paper {
        along: Rate::read("0.003"),
        across: Rate::read("0.015"),
        water_based: true,
        ..Paper::default()
    });
    assembly.grain = Some(Grain::Height);
    assembly.hinged_at = Humidity::read("50");
    assembly.hangs_at =
        Humidity::read("30").zip(Humidity::read("60")).map(|(dry, damp)| Hangs { dry, damp });
    document
}

/// A mat of that size in a frame with that rabbet and a 1/4 in lip.
pub(super) fn framed_in(outer: &str, rabbet: &str) -> Document {
    let mut document = plan(Unit::Inch, "8x10");
    let mat = mat(&mut document);
    mat.board_by = BoardBy::Outer { size: size(outer), placement: Placement::Centred };
    mat.assembly.package.frame = Tables::shipped().frame("gallery-wood").cloned();
    mat.assembly.package.size = Some(FrameSize::Rabbet(size(rabbet)));
    document
}

/// The reference piece with the usual words on a print whose record is whole.
pub(super) fn inscribed(change: impl FnOnce(&mut Lettering, &mut Recorded)) -> Document {
    let mut wanted = Inscribed {
        lettering: Lettering::default(),
        recorded: Recorded {
            title: "Slack water".to_owned(),
            maker: "Ada Brook".to_owned(),
            taken: Some(2021),
            printed: Some(2025),
            notation: Some(Notation { kind: Kind::Numbered, number: 3, of: 25 }),
            numerals: Numerals::Roman,
            print: None,
        },
    };
    change(&mut wanted.lettering, &mut wanted.recorded);
    Document { inscribed: Some(wanted), ..reference() }
}

/// What is decided behind the mat of the only variant.
pub(super) fn assembly_of(document: &mut Document) -> &mut Assembly {
    &mut mat(document).assembly
}

/// The mat of the only variant.
pub(super) fn mat(document: &mut Document) -> &mut Mat {
    &mut document.variants[0].mat
}

/// All that is found.
pub(super) fn findings(document: &Document) -> Vec<Finding> {
    derive(document, &document.variants[0], Tables::shipped()).findings
}

/// What one rule finds.
pub(super) fn found(document: &Document, rule: &str) -> Vec<Finding> {
    findings(document).into_iter().filter(|finding| finding.rule == rule).collect()
}

/// Severities and sides of what one rule finds, as in `fault left, caution top`.
pub(super) fn summary(document: &Document, rule: &str) -> String {
    let summary = found(document, rule).into_iter().map(|finding| {
        let key = finding.severity.key();
        finding.place.side.map_or(key.to_owned(), |side| format!("{key} {}", side.name()))
    });
    summary.collect::<Vec<_>>().join(", ")
}

/// What goes wrong with the remedies of a plan: each must clear its own finding and bring no
/// worse one.
pub(super) fn bad_remedies(document: &Document) -> Vec<String> {
    let before = findings(document);
    let mut bad = Vec::new();
    for finding in &before {
        let Some(remedy) = &finding.remedy else { continue };
        let mut changed = document.clone();
        if let Err(refusal) = apply(&mut changed, &remedy.command) {
            bad.push(format!("{}: {refusal}", remedy.words));
            continue;
        }
        let same = |a: &Finding, b: &Finding| a.rule == b.rule && a.place == b.place;
        for after in findings(&changed) {
            // What was as bad at the same place, by whatever rule, is not made worse.
            let worse = before
                .iter()
                .all(|old| old.place != after.place || old.severity < after.severity);
            if same(finding, &after) || (worse && after.severity > finding.severity) {
                bad.push(format!("{}: {} | {}", finding.message, remedy.words, after.message));
            }
        }
    }
    bad
}

/// Checks what one rule finds in a plan, and that every remedy of the plan does what it says.
#[track_caller]
pub(super) fn check(document: &Document, rule: &str, wanted: &str) {
    assert_eq!(summary(document, rule), wanted, "{:#?}", found(document, rule));
    assert_eq!(bad_remedies(document), [""; 0], "remedies");
}

/// The words of the first finding of a rule, and those of its remedy.
#[track_caller]
pub(super) fn words(document: &Document, rule: &str) -> (String, String) {
    let first = found(document, rule).into_iter().next().unwrap();
    (first.message, first.remedy.map(|remedy| remedy.words).unwrap_or_default())
}

/// That a finding says just this, and its remedy, where it has one, just that.
#[track_caller]
pub(super) fn reads(finding: &Finding, message: &str, remedy: &str) {
    assert_eq!(finding.message, message, "{}", finding.rule);
    let words = finding.remedy.as_ref().map(|remedy| remedy.words.as_str());
    assert_eq!(words.unwrap_or_default(), remedy, "the way out of {}", finding.rule);
}

/// The same of the first finding of a rule.
#[track_caller]
pub(super) fn says(document: &Document, rule: &str, message: &str, remedy: &str) {
    let found = found(document, rule);
    reads(found.first().expect("the rule finds something"), message, remedy);
}

/// The same plan in millimetres.
pub(super) fn metric(mut document: Document) -> Document {
    document.unit = Unit::Millimetre;
    document.ruler = Ruler::usual(Unit::Millimetre);
    document
}

/// The same plan with those borders.
pub(super) fn with_borders(mut document: Document, borders: &str) -> Document {
    mat(&mut document).board_by = BoardBy::Borders(sides(borders));
    document
}

/// The same plan, its mat lying by so much on the image: on the sheet where that is all image.
pub(super) fn with_overlaps(mut document: Document, overlaps: &str) -> Document {
    let reveal = sides(overlaps).map(|overlap| -overlap);
    mat(&mut document).openings[0].window_by = WindowBy::Reveal(reveal);
    document
}

/// A plan in inches with those borders.
pub(super) fn bordered(sheet: &str, borders: &str) -> Document {
    with_borders(plan(Unit::Inch, sheet), borders)
}

/// A plan in inches whose mat lies on the sheet by so much.
pub(super) fn overlapping(sheet: &str, overlaps: &str) -> Document {
    with_overlaps(plan(Unit::Inch, sheet), overlaps)
}

/// A plan in inches whose window is in the middle of a board of that size.
pub(super) fn on_board(sheet: &str, outer: &str) -> Document {
    let mut document = plan(Unit::Inch, sheet);
    mat(&mut document).board_by =
        BoardBy::Outer { size: size(outer), placement: Placement::Centred };
    document
}
