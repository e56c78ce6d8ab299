//! Which number a print gets, holds and gives up.

use sightedge_studio::{
    Change, Choice, Issue, Kind, NewFormat, Note, PrintDetails, PrintId, Record, State,
    Subject, TakenOver,
};

use super::support::{TODAY, edition, fresh, issue, moved, next, now, number, refused};

#[test]
fn numbers_come_in_order_and_end() {
    let (_folder, mut opened) = fresh();
    let record = opened.record();
    let (_, edition) = edition(record, 3);
    for wanted in 1..=3 {
        let print = issue(record, edition);
        assert_eq!((print.number, print.kind, print.live), (wanted, Kind::Numbered, true));
    }
    refused(
        record.issue(&next(edition), &now()),
        "this edition has 3 prints, and no number is free",
    );
    refused(
        record.issue(&number(edition, Kind::Numbered, 4), &now()),
        "this edition has 3 prints; 4 is beyond it. Choose a free number from 1 to 3",
    );
    refused(
        record.issue(&number(edition, Kind::Numbered, 0), &now()),
        "this edition has 3 prints, numbered from 1: choose a free number from 1 to 3",
    );
}

/// A size is there with its first print, or not at all: nothing is ever deleted.
#[test]
fn a_refused_print_leaves_no_size_behind() {
    let (_folder, mut opened) = fresh();
    let record = opened.record();
    let (work, edition) = edition(record, 2);
    let size = |name: &str| NewFormat { name: name.into(), sheet_w: 7, ..NewFormat::default() };
    let of = |choice| Issue { choice, size: Some(size("")), ..next(edition) };
    refused(
        record.issue(&of(Choice::Number(3)), &now()),
        "this edition has 2 prints; 3 is beyond it",
    );
    let stock = PrintDetails { printed: "soon".into(), ..PrintDetails::default() };
    refused(record.issue(&Issue { stock, ..of(Choice::Next) }, &now()), "is no day");
    assert!(record.formats(work).unwrap().is_empty());
    let first = record.issue(&of(Choice::Next), &now()).unwrap();
    let formats = record.formats(work).unwrap();
    assert_eq!((formats.len(), first.now.format), (1, Some(formats[0].id)));
    // Whatever it is called, it is there already.
    let large = Issue { size: Some(size("large")), ..next(edition) };
    assert_eq!(record.issue(&large, &now()).unwrap().now.format, first.now.format);
    assert_eq!(record.formats(work).unwrap(), formats);
}

#[test]
fn a_chosen_number_is_held_and_the_next_fills_the_gap() {
    let (_folder, mut opened) = fresh();
    let record = opened.record();
    let (_, edition) = edition(record, 10);
    let three = number(edition, Kind::Numbered, 3);
    assert_eq!(record.issue(&three, &now()).unwrap().number, 3);
    refused(
        record.issue(&three, &now()),
        "another print has this number: take the next free one",
    );
    let numbers: Vec<u32> = (0..4).map(|_| issue(record, edition).number).collect();
    assert_eq!(numbers, [1, 2, 4, 5]);
}

#[test]
fn a_voided_number_is_free_again_and_keeps_its_history() {
    let (_folder, mut opened) = fresh();
    let record = opened.record();
    let (_, edition) = edition(record, 5);
    issue(record, edition);
    let second = issue(record, edition);
    issue(record, edition);
    let why = Note::because(TODAY, "wrong paper");
    let voided = record.change(second.id, &Change::Void, &why).unwrap();
    assert!(!voided.live);
    assert_eq!(voided.now.state, State::Voided);
    let again = issue(record, edition);
    assert_eq!(again.number, 2);
    assert_ne!(again.id, second.id);
    let history = record.history(Subject::Print(second.id)).unwrap();
    assert_eq!(history.len(), 2);
    assert_eq!(history[1].why, "wrong paper");
    assert!(history[1].payload.contains("\"state\":\"voided\""), "{}", history[1].payload);
    refused(
        record.change(second.id, &moved(State::Sold, ""), &now()),
        "this print no longer holds number 2 (it is voided)",
    );
    assert_eq!(record.prints(edition).unwrap().len(), 4, "nothing is deleted");
    let sold = record.change(again.id, &moved(State::Sold, ""), &now()).unwrap();
    refused(
        record.change(sold.id, &Change::Void, &now()),
        "number 2 cannot be voided: this print is sold, and its number with it",
    );
}

#[test]
fn a_destroyed_print_is_replaced_under_its_number() {
    let (_folder, mut opened) = fresh();
    let record = opened.record();
    let (_, edition) = edition(record, 5);
    let print = issue(record, edition);
    refused(
        record.replace(print.id, &now()),
        "number 1 cannot be replaced: the print is in the studio",
    );
    record.change(print.id, &moved(State::Destroyed, ""), &now()).unwrap();
    // It still holds its number.
    assert_eq!(issue(record, edition).number, 2);
    refused(
        record.change(print.id, &moved(State::Show, "Harbour"), &now()),
        "this print is destroyed: replace it under its number",
    );
    let new = record.replace(print.id, &Note::because(TODAY, "water")).unwrap();
    assert_eq!((new.number, new.replaces), (1, Some(print.id)));
    refused(
        record.replace(print.id, &now()),
        "number 1 cannot be replaced: the print is destroyed",
    );
    assert_eq!(record.print(print.id).unwrap().now.state, State::Destroyed);
}

#[test]
fn an_edition_under_way_is_taken_over() {
    let (_folder, mut opened) = fresh();
    let record = opened.record();
    let (_, edition) = edition(record, 100);
    let taken = |from, to, sold: &[u32]| TakenOver { edition, from, to, sold: sold.to_vec() };
    let sold: Vec<u32> = (1..=47).filter(|number| ![13, 22].contains(number)).collect();
    assert_eq!(record.take_over(&taken(1, 47, &sold), &now()).unwrap(), 47);
    assert_eq!(issue(record, edition).number, 48);
    let prints = record.prints(edition).unwrap();
    let unknown = prints.iter().filter(|print| print.now.state == State::Unknown);
    assert_eq!(unknown.map(|print| print.number).collect::<Vec<_>>(), [13, 22]);
    refused(record.take_over(&taken(47, 60, &[]), &now()), "another print has this number");
    assert_eq!(record.prints(edition).unwrap().len(), 48, "all or none");
    refused(
        record.take_over(&taken(90, 101, &[]), &now()),
        "numbers 90 to 101 do not fit an edition of 100: choose a first and a last",
    );
    refused(
        record.take_over(&taken(60, 61, &[70]), &now()),
        "number 70 is marked as sold, but only 60 to 61",
    );
}

/// What was issued before the record began is neither sold nor at hand until someone says where it
/// is, in one step for many.
#[test]
fn prints_taken_over_are_sold_only_where_entered() {
    let (_folder, mut opened) = fresh();
    let record = opened.record();
    let (work, edition) = edition(record, 25);
    let taken = TakenOver { edition, from: 1, to: 10, sold: Vec::new() };
    record.take_over(&taken, &now()).unwrap();
    let totals = |record: &dyn Record| {
        let rows = record.index().unwrap();
        let row = rows.iter().find(|row| row.work.id == work).unwrap();
        let totals = row.editions[0].totals;
        [totals.issued, totals.studio, totals.show, totals.sold, totals.unknown]
    };
    assert_eq!(totals(record), [10, 0, 0, 0, 10]);
    assert!(record.sums().unwrap().iter().all(|sum| sum.sold + sum.offered == 0));
    let to = |state, place: &str| Change::Move {
        to: state,
        place: (!place.is_empty()).then(|| place.to_owned()),
        buyer: None,
        price: None,
    };
    let ids: Vec<PrintId> =
        record.prints(edition).unwrap().iter().map(|print| print.id).collect();
    let all = |numbers: &[usize], to: &Change| -> Vec<(PrintId, Change)> {
        numbers.iter().map(|number| (ids[number - 1], to.clone())).collect()
    };
    let sold = record.change_all(&all(&[1, 2, 5], &to(State::Sold, "")), &now()).unwrap();
    assert_eq!(sold.iter().map(|print| print.number).collect::<Vec<_>>(), [1, 2, 5]);
    record.change_all(&all(&[3], &to(State::Show, "Hall")), &now()).unwrap();
    assert_eq!(totals(record), [10, 0, 1, 3, 6]);
    // All of them or none.
    let mut wrong = all(&[4], &to(State::Studio, ""));
    wrong.extend(all(&[5], &Change::Void));
    refused(
        record.change_all(&wrong, &now()),
        "nothing was changed, because of 5/25: number 5 cannot be voided: this print is sold",
    );
    wrong[1].0 = PrintId(99);
    refused(record.change_all(&wrong, &now()), "there is no print 99");
    refused(
        record.change_all(&all(&[4], &to(State::Show, "")), &now()),
        "the show has no name: type which show",
    );
    assert_eq!(totals(record), [10, 0, 1, 3, 6]);
    record.change_all(&all(&[4, 6], &to(State::Studio, "")), &now()).unwrap();
    assert_eq!(totals(record), [10, 2, 1, 3, 4]);
    assert_eq!(record.check().unwrap(), Vec::<String>::new());
}

/// The last one to know which number is to be chosen is the database.
#[test]
fn the_plan_finds_its_prints() {
    let (_folder, mut opened) = fresh();
    let record = opened.record();
    let (_, edition) = edition(record, 10);
    let stock = PrintDetails { plan: "abc".into(), ..PrintDetails::default() };
    let issue = Issue { stock, choice: Choice::Next, ..next(edition) };
    let made = [(); 3].map(|()| record.issue(&issue, &now()).unwrap());
    let numbers = |record: &dyn Record, plan: &str, also: Option<PrintId>| {
        let prints = record.prints_of_plan(plan, also).unwrap();
        prints.into_iter().map(|(_, _, print)| print.number).collect::<Vec<_>>()
    };
    assert_eq!(numbers(record, "abc", None), [1, 2, 3]);
    assert_eq!(numbers(record, "", None), [0; 0]);
    record.change(made[1].id, &Change::Void, &now()).unwrap();
    assert_eq!(numbers(record, "abc", None), [1, 3]);
    assert_eq!(numbers(record, "abc", Some(made[1].id)), [1, 2, 3], "asked for by name");
    assert_eq!(numbers(record, "abd", Some(made[1].id)), [0; 0], "of another plan");
    // The new print goes with the plan of the one it replaces.
    let gone = Change::Move { to: State::Destroyed, place: None, buyer: None, price: None };
    record.change(made[2].id, &gone, &now()).unwrap();
    let new = record.replace(made[2].id, &now()).unwrap();
    assert_eq!((new.number, new.now.plan.as_str()), (3, "abc"));
    assert_eq!(record.prints_of_plan("abc", None).unwrap()[1].2.id, new.id);
    assert_eq!(record.check().unwrap(), Vec::<String>::new());
}
