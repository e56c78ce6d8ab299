//! What was entered wrong is corrected by a new entry.

use rusqlite::Connection;
use sightedge_core::geometry::Size;
use sightedge_core::length::Length;
use sightedge_studio::{
    Change, Correction, EditionId, FormatId, Issue, Money, NewEdition, NewFormat, NewWork,
    Note, PrintDetails, State, Subject, Tier, WorkId,
};

use super::support::{TODAY, edition, fresh, issue, moved, next, now, refused};

/// A size typed wrong is corrected by a new entry; what was typed before stays to be read.
#[test]
fn a_format_is_corrected() {
    let (_folder, mut opened) = fresh();
    let record = opened.record();
    let (work, _) = edition(record, 5);
    let inches =
        |width, height| Size::new(Length::inches(width, 0, 1), Length::inches(height, 0, 1));
    let wrong = NewFormat::new("", inches(15, 11), inches(19, 13));
    let id = record.add_format(work, &wrong, &now()).unwrap();
    let right = NewFormat::new("portrait", inches(11, 15), inches(13, 19));
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
    refused(record.correct_format(FormatId(99), &right, &now()), "there is no size 99");
    let less = NewFormat { sheet_w: -1, ..right.clone() };
    refused(record.correct_format(id, &less, &now()), "a width or height is less than zero");
    refused(record.add_format(work, &less, &now()), "a width or height is less than zero");
    let unsaid = NewFormat { name: "a\0b".into(), ..right.clone() };
    refused(
        record.correct_format(id, &unsaid, &now()),
        "the name of the size: there is a character in it that cannot be shown",
    );
    refused(record.correct_format(id, &right, &Note::at("May")), "\"May\" is no day for");
    assert_eq!(record.formats(work).unwrap()[0].what, right, "as it was");
}

/// What belongs together is corrected together, or not at all.
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
        ..Correction::default()
    };
    refused(record.correct(work, &all, &now()), "the number is beyond the edition");
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
    refused(record.correct(work, &all, &now()), "so its size and proofs are fixed");
    refused(record.correct(WorkId(9), &all, &now()), "there is no work 9: list them");
}

/// What was entered of a print by mistake is corrected, and then it can be voided or moved.
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
        "the show has no name: type which show",
    );
    refused(
        record.change(print.id, &right(State::Voided, ""), &now()),
        "voiding is no correction: void the print",
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
    refused(
        opened.record().change(print.id, &earlier, &now()),
        "before it was printed on 2025-11-20: correct one of the two",
    );
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
        "a new print cannot be destroyed yet: issue it first",
    );
    assert!(record.prints(edition).unwrap().is_empty());
}

/// A work entered by mistake leaves the list by an entry and comes back by one; where anybody may
/// have a print of it, it stays.
#[test]
fn a_work_is_withdrawn_and_brought_back() {
    let (_folder, mut opened) = fresh();
    let record = opened.record();
    let (work, edition) = edition(record, 5);
    let withdrawn =
        |withdrawn| Correction { withdrawn: Some(withdrawn), ..Correction::default() };
    let print = issue(record, edition);
    let words = "prints of this work are issued, so it stays on the list: void numbers";
    refused(record.correct(work, &withdrawn(true), &now()), words);
    // A number given in error is nobody's.
    record.change(print.id, &Change::Void, &now()).unwrap();
    record.correct(work, &withdrawn(true), &Note::because(TODAY, "twice")).unwrap();
    assert!(record.work(work).unwrap().withdrawn && record.index().unwrap()[0].work.withdrawn);
    refused(record.issue(&next(edition), &now()), "this work is withdrawn, so no print of it");
    let title = NewWork { title: "Weir".into(), ..record.work(work).unwrap().what };
    record.correct_work(work, &title, &now()).unwrap();
    assert!(record.work(work).unwrap().withdrawn, "a correction of the title is no return");
    record.correct(work, &withdrawn(false), &now()).unwrap();
    issue(record, edition);
    let entries = record.history(Subject::Work(work)).unwrap();
    assert_eq!((entries.len(), entries[1].why.as_str()), (4, "twice"));
    assert!(entries[1].payload.contains("\"withdrawn\":1"), "{}", entries[1].payload);
    assert!(!entries[3].payload.contains("withdrawn"), "{}", entries[3].payload);
    assert_eq!(record.check().unwrap(), Vec::<String>::new());
}

/// A catalogue number is one work's alone, before and after a correction.
#[test]
fn a_catalogue_number_is_corrected() {
    let (_folder, mut opened) = fresh();
    let record = opened.record();
    let (work, _) = edition(record, 5);
    let other = record.add_work(&NewWork::default(), Some("A 7"), &now()).unwrap();
    let called = |catalogue: &str| Correction {
        catalogue: Some(catalogue.into()),
        ..Correction::default()
    };
    refused(record.correct(work, &called("A 7"), &now()), "another work has this catalogue");
    refused(record.correct(work, &called(" "), &now()), "the catalogue number is empty: type");
    record.correct(work, &called("A 8"), &Note::because(TODAY, "as in the book")).unwrap();
    assert_eq!(record.work(work).unwrap().catalogue, "A 8");
    record.correct(other, &called("W0001"), &now()).unwrap();
    let entries = record.history(Subject::Work(work)).unwrap();
    assert!(entries[1].payload.contains("\"catalogue\":\"A 8\""), "{}", entries[1].payload);
    assert_eq!(entries[1].why, "as in the book");
    record.correct(work, &called("A 8"), &now()).unwrap();
    assert_eq!(record.history(Subject::Work(work)).unwrap().len(), 2, "nothing new, no entry");
}

/// A show renamed is renamed for each print there or sold there, with an entry each.
#[test]
fn a_show_is_renamed() {
    let (_folder, mut opened) = fresh();
    let record = opened.record();
    let (_, edition) = edition(record, 5);
    let ids = [(); 4].map(|()| issue(record, edition).id);
    for id in &ids[..3] {
        record.change(*id, &moved(State::Show, "Harbor"), &now()).unwrap();
    }
    record.change(ids[1], &moved(State::Sold, "Harbor"), &now()).unwrap();
    let back = Change::Move { to: State::Returned, place: None, buyer: None, price: None };
    record.change(ids[2], &back, &now()).unwrap();
    refused(record.rename_show("Nowhere", "X", &now()), "no print is at a show named Nowhere");
    refused(record.rename_show("Harbor", " ", &now()), "the show needs a name: type the new");
    let were = record.rename_show("Harbor", "Harbour", &Note::because(TODAY, "typo")).unwrap();
    assert_eq!(were.iter().map(|print| print.id).collect::<Vec<_>>(), ids[..2]);
    assert!(were.iter().all(|print| print.now.place == "Harbor"), "as they were");
    assert_eq!(record.shows().unwrap(), [("Harbour".to_owned(), 1)]);
    assert_eq!(record.at_show("Harbour").unwrap().len(), 2);
    let entries = |id| record.history(Subject::Print(id)).unwrap();
    assert_eq!(entries(ids[0]).last().unwrap().why, "typo");
    assert_eq!([entries(ids[2]).len(), entries(ids[3]).len()], [3, 1], "not theirs");
    assert_eq!(record.check().unwrap(), Vec::<String>::new());
}

/// Who looks for a buyer finds the print, whatever letters they type in capitals.
#[test]
fn a_print_is_found_by_its_buyer() {
    let (_folder, mut opened) = fresh();
    let record = opened.record();
    let (work, edition) = edition(record, 5);
    let ids = [(); 3].map(|()| issue(record, edition).id);
    let sold = |buyer: &str| Change::Move {
        to: State::Sold,
        place: None,
        buyer: Some(buyer.into()),
        price: None,
    };
    record.change(ids[1], &sold("Élise of Ostmere"), &now()).unwrap();
    record.change(ids[2], &moved(State::Show, "Ostmere Hall"), &now()).unwrap();
    let found = |text: &str| -> Vec<u32> {
        let held = record.held_by(text).unwrap();
        assert!(held.iter().all(|(of, _)| *of == work), "{held:?}");
        held.into_iter().map(|(_, print)| print.number).collect()
    };
    assert_eq!(found("ÉLISE"), [2]);
    assert_eq!(found("ostmere"), [2, 3]);
    assert_eq!(found("nobody"), [0; 0]);
}
