use sightedge_core::length::Unit;
use sightedge_core::spec::{Document, Ruler, VariantId};
use sightedge_studio::{
    Change, Choice, Issue, Kind, NewEdition, NewWork, Note, PrintDetails, open,
};

use super::*;

const DAY: &str = "2025-11-30";

fn document() -> Document {
    Document {
        id: "a plan".to_owned(),
        unit: Unit::Inch,
        weights: None,
        ruler: Ruler::usual(Unit::Inch),
        works: Vec::new(),
        variants: Vec::new(),
        chosen: VariantId(1),
        choice: None,
        inscribed: None,
        log: Vec::new(),
    }
}

/// A record with five numbers of one plan.
fn five() -> (tempfile::TempDir, Opened, Document) {
    let folder = tempfile::tempdir().unwrap();
    let mut opened = open(folder.path(), DAY).unwrap();
    let document = document();
    let record = opened.record();
    let note = Note::at(DAY);
    let work = NewWork { title: "Slack water".to_owned(), ..NewWork::default() };
    let work = record.add_work(&work, None, &note).unwrap();
    let edition = record.open_edition(work, &NewEdition::of(25, 10), &note).unwrap();
    for _ in 0..5 {
        let stock = PrintDetails { plan: document.id.clone(), ..PrintDetails::default() };
        let issue =
            Issue { edition, kind: Kind::Numbered, choice: Choice::Next, stock, size: None };
        record.issue(&issue, &note).unwrap();
    }
    (folder, opened, document)
}

fn change(opened: &mut Opened, number: usize, change: &Change) {
    let record = opened.record();
    let edition = record.index().unwrap()[0].editions[0].edition.id;
    let mut live = record.prints(edition).unwrap().into_iter().filter(|print| print.live);
    let print = live.nth(number - 1).unwrap();
    record.change(print.id, change, &Note::at(DAY)).unwrap();
}

fn moved(to: State) -> Change {
    Change::Move { to, place: None, buyer: None, price: None }
}

fn prints(opened: &Opened, document: &Document) -> Prints {
    Prints::of(opened.read(), document).unwrap()
}

#[test]
fn the_lowest_in_the_studio_that_is_not_matted_is_proposed() {
    let (_folder, mut opened, document) = five();
    let proposed = |opened: &Opened| prints(opened, &document).proposed().map(number);
    assert_eq!(proposed(&opened).as_deref(), Some("1/25"));
    change(&mut opened, 1, &moved(State::Sold));
    assert_eq!(proposed(&opened).as_deref(), Some("2/25"));
    let matted = PrintDetails {
        matted: DAY.to_owned(),
        plan: document.id.clone(),
        ..PrintDetails::default()
    };
    change(&mut opened, 2, &Change::Correct(Box::new(matted)));
    change(&mut opened, 3, &moved(State::Destroyed));
    assert_eq!(proposed(&opened).as_deref(), Some("4/25"));
    // One that came back is in the studio.
    change(&mut opened, 1, &moved(State::Returned));
    assert_eq!(proposed(&opened).as_deref(), Some("1/25"));
    for number in [1, 4, 5] {
        change(&mut opened, number, &moved(State::Sold));
    }
    assert_eq!(proposed(&opened), None);
}

#[test]
fn the_print_at_the_bench_is_the_plans_own() {
    let (_folder, mut opened, mut document) = five();
    let usual = Lettering::default();
    assert_eq!(prints(&opened, &document).at_bench(&document), None);
    let three = prints(&opened, &document).named("3").unwrap().clone();
    document.inscribed = Some(taken(&document, &three, &usual));
    let at = |opened: &Opened, document: &Document| {
        prints(opened, document).at_bench(document).map(|one| (number(one), one.2.id))
    };
    assert_eq!(at(&opened, &document), Some(("3/25".to_owned(), three.2.id)));
    // A plan that was kept before it named its print has it by its number.
    let mut older = document.clone();
    older.inscribed.as_mut().unwrap().recorded.print = None;
    assert_eq!(at(&opened, &older), at(&opened, &document));
    assert_eq!(prints(&opened, &older).followed(&older), document.inscribed);
    assert_eq!(prints(&opened, &document).followed(&document), None);
    // A new print that replaces it is in its place; one that takes a voided number is not.
    change(&mut opened, 3, &moved(State::Destroyed));
    let new = opened.record().replace(three.2.id, &Note::at(DAY)).unwrap();
    assert_eq!(at(&opened, &document), Some(("3/25".to_owned(), new.id)));
    assert!(prints(&opened, &document).followed(&document).is_some());
    let four = prints(&opened, &document).named("4/25").unwrap().clone();
    document.inscribed = Some(taken(&document, &four, &usual));
    change(&mut opened, 4, &Change::Void);
    let finding = prints(&opened, &document).finding(&document, &usual).unwrap();
    assert!(finding.message.starts_with("“4/25”, the print at the bench, was voided"));
    assert_eq!(finding.remedy.unwrap().words, "Take “1/25” to the bench");
}

#[test]
fn words_that_were_decided_stay_and_what_stood_on_another_print_goes() {
    let (_folder, opened, mut document) = five();
    let usual = Lettering { left: "No. {number}".to_owned(), ..Lettering::default() };
    let all = prints(&opened, &document);
    let mut own = taken(&document, all.named("1").unwrap(), &usual);
    assert_eq!(
        (own.lettering.left.as_str(), own.recorded.title.as_str()),
        ("No. {number}", "Slack water")
    );
    own.lettering.left = "{number}, mine".to_owned();
    own.lettering.already_written = "1/25".to_owned();
    document.inscribed = Some(own.clone());
    assert_eq!(taken(&document, all.named("1/25").unwrap(), &usual), own, "the same print");
    let other = taken(&document, all.named("2/25").unwrap(), &usual);
    assert_eq!(
        (other.lettering.left.as_str(), other.lettering.already_written.as_str()),
        ("{number}, mine", "")
    );
    let by_hand = typed(&document, "AP 2/5", &usual).unwrap();
    assert_eq!(
        (by_hand.recorded.print, by_hand.recorded.number()),
        (None, "AP 2/5".to_owned())
    );
}

#[test]
fn prints_of_one_edition_alone() {
    let (_folder, opened, document) = five();
    let id = opened.read().index().unwrap()[0].editions[0].edition.id.0.to_string();
    let of_it = prints(&opened, &document).in_edition(&format!(" {id} ")).unwrap();
    assert_eq!(number(of_it.named("3").unwrap()), "3/25");
    assert_eq!(
        prints(&opened, &document).in_edition("99").err(),
        Some(format!("this plan has no print of edition 99: it has prints of {id}"))
    );
}
