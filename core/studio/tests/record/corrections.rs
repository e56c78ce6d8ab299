//! What was said wrong is put right by a new entry.

use rusqlite::Connection;
use sightedge_core::geometry::Size;
use sightedge_core::length::Length;
use sightedge_studio::{
    Change, Correction, EditionId, FormatId, Issue, Money, NewEdition, NewFormat, NewWork,
    Note, PrintDetails, State, Subject, Tier, WorkId,
};

use super::support::{TODAY, edition, fresh, issue, moved, next, now, refused};

/// A size typed wrong is put right by a new entry; what was said before stays to be read.
#[test]
fn a_format_is_corrected() {
    let (_folder, mut opened) = fresh();
    let record = opened.record();
    let (work, _) = edition(record, 5);
    let inches =
        |width, height| Size::new(Length::inches(width, 0, 1), Length::inches(height, 0, 1));
    let wrong = NewFormat::new("", inches(15, 11), inches(19, 13));
    let id = record.add_format(work, &wrong, &now()).unwrap();
    let right = NewFormat::new("upright", inches(11, 15), inches(13, 19));
    let why = Note::because("2025-12-01", "turned");
    record.correct_format(id, &right, &why).unwrap();
    let formats = record.formats(work).unwrap();
    assert_eq!(formats.len(), 1);
    assert_eq!((formats[0].id, &formats[0].what), (id, &right));
    let entries = record.history(Subject::Format(id)).unwrap();
    let told: Vec<_> = entries.iter().map(|one| (one.what.as_str(), &*one.at)).collect();
    assert_eq!(told, [("added", TODAY), ("changed", "2025-12-01")]);
    assert_eq!(entries[1].why, "turned");
    assert!(entries[0].payload.contains("\"image_w\":274320000"), "{}", entries[0].payload);
    assert!(entries[1].payload.contains("\"image_w\":201168000"), "{}", entries[1].payload);
    refused(record.correct_format(FormatId(99), &right, &now()), "there is no format 99");
    let less = NewFormat { sheet_w: -1, ..right.clone() };
    refused(record.correct_format(id, &less, &now()), "a size less than nothing was given");
    refused(record.add_format(work, &less, &now()), "a size less than nothing was given");
    let unsaid = NewFormat { name: "a\0b".into(), ..right.clone() };
    refused(record.correct_format(id, &unsaid, &now()), "the format's name holds a character");
    refused(record.correct_format(id, &right, &Note::at("May")), "\"May\" is no day for");
    assert_eq!(record.formats(work).unwrap()[0].what, right, "as it was");
}

/// What belongs together is put right together, or not at all.
#[test]
fn a_correction_is_whole_or_nothing() {
    let (_folder, mut opened) = fresh();
    let record = opened.record();
    let (work, edition) = edition(record, 5);
    let was = record.work(work).unwrap().what;
    let price = Money { cents: 80_000, currency: "EUR".into() };
    let mut all = Correction {
        work: Some(NewWork { title: "Slack Water".into(), taken: None, ..was.clone() }),
        formats: vec![(None, NewFormat { name: "small".into(), ..NewFormat::default() })],
        edition: Some((edition, NewEdition::of(30, 10))),
        tiers: vec![Tier { edition, from: 31, price: price.clone() }],
    };
    refused(record.correct(work, &all, &now()), "a number beyond the edition was given");
    assert_eq!(record.work(work).unwrap().what, was);
    assert_eq!(record.edition(edition).unwrap().what.size, 5);
    assert!(record.formats(work).unwrap().is_empty());
    all.tiers[0].from = 30;
    record.correct(work, &all, &Note::because(TODAY, "typed wrong")).unwrap();
    assert_eq!(Some(record.work(work).unwrap().what), all.work);
    assert_eq!(record.edition(edition).unwrap().what.artist, 3);
    assert_eq!(record.tiers(edition).unwrap()[0].from, 30);
    assert_eq!(record.history(Subject::Work(work)).unwrap()[1].why, "typed wrong");
    let format = record.formats(work).unwrap()[0].id;
    all.formats = vec![(Some(format), NewFormat::default())];
    issue(record, edition);
    record.correct(work, &all, &now()).unwrap();
    assert_eq!(record.formats(work).unwrap()[0].what, NewFormat::default());
    all.edition = Some((edition, NewEdition::of(40, 10)));
    refused(record.correct(work, &all, &now()), "its size and proofs are fixed by the first");
    refused(record.correct(WorkId(9), &all, &now()), "there is no work 9: list them");
}

/// What was said of a print by mistake is put right, and then it can be voided or moved.
#[test]
fn a_print_is_corrected() {
    let (_folder, mut opened) = fresh();
    let record = opened.record();
    let (_, edition) = edition(record, 5);
    let print = issue(record, edition);
    let sold = record.change(print.id, &moved(State::Destroyed, ""), &now()).unwrap();
    let right = |state, place: &str| {
        let place = place.to_owned();
        Change::Correct(Box::new(PrintDetails { state, place, ..sold.now.clone() }))
    };
    refused(
        record.change(print.id, &right(State::Show, " "), &now()),
        "a print goes to a show that is not named",
    );
    refused(
        record.change(print.id, &right(State::Voided, ""), &now()),
        "voided, not corrected",
    );
    let now_there = record.change(print.id, &right(State::Show, "Harbour"), &now()).unwrap();
    assert_eq!((now_there.now.state, now_there.now.place.as_str()), (State::Show, "Harbour"));
    assert_eq!(record.history(Subject::Print(print.id)).unwrap().len(), 3);
    record.change(print.id, &right(State::Sold, ""), &now()).unwrap();
    refused(record.change(print.id, &Change::Void, &now()), "correct it first");
    record.change(print.id, &right(State::Studio, ""), &now()).unwrap();
    record.change(print.id, &Change::Void, &now()).unwrap();
}

/// A print is printed before it is matted; days an older record has otherwise stop no sale.
#[test]
fn days_follow_each_other() {
    let (_folder, mut opened) = fresh();
    let (_, edition) = edition(opened.record(), 5);
    let days = |printed: &str, matted: &str| PrintDetails {
        printed: printed.into(),
        matted: matted.into(),
        ..PrintDetails::default()
    };
    let wrong = Issue { stock: days("2025-11-20", "2025-11-19"), ..next(edition) };
    refused(
        opened.record().issue(&wrong, &now()),
        "matted on 2025-11-19, before it was printed",
    );
    let same = Issue { stock: days("2025-11-20", "2025-11-20"), ..next(edition) };
    let print = opened.record().issue(&same, &now()).unwrap();
    let earlier = Change::Correct(Box::new(days("2025-11-20", "2025-11-01")));
    refused(opened.record().change(print.id, &earlier, &now()), "the same day or a later one");
    let old = Connection::open(opened.file()).unwrap();
    old.execute("UPDATE print SET matted = '2025-11-01' WHERE id = ?1", [print.id.0]).unwrap();
    let sold = opened.record().change(print.id, &moved(State::Sold, ""), &now()).unwrap();
    assert_eq!(sold.now.matted, "2025-11-01");
}

#[test]
fn wrong_days_prices_and_ids_are_refused() {
    let (_folder, mut opened) = fresh();
    let record = opened.record();
    let (_, edition) = edition(record, 10);
    for day in ["", "yesterday", "2025-13-01", "2025-1-1", "30.11.2025", "2025-11-3x"] {
        refused(record.issue(&next(edition), &Note::at(day)), "is no day for the date");
    }
    let printed = |day: &str| {
        let stock = PrintDetails { printed: day.into(), ..PrintDetails::default() };
        Issue { stock, ..next(edition) }
    };
    refused(record.issue(&printed("May"), &now()), "\"May\" is no day for the day of printing");
    refused(record.issue(&next(EditionId(99)), &now()), "there is no edition 99");
    let destroyed = PrintDetails { state: State::Destroyed, ..PrintDetails::default() };
    refused(
        record.issue(&Issue { stock: destroyed, ..next(edition) }, &now()),
        "a new print was to be destroyed, and one that is there is wanted",
    );
    assert!(record.prints(edition).unwrap().is_empty());
}
