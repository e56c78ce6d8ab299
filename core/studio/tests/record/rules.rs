//! What the record does and what it refuses.

use sightedge_core::geometry::Size;
use sightedge_core::length::Length;

use super::support::{TODAY, edition, fresh, issue, next, now, number};
use sightedge_studio::{
    Change, Choice, Correction, EditionId, FormatId, Issue, Kind, Money, NewEdition, NewFormat,
    NewWork, Note, State, Stock, Subject, TakenOver, Tier, WorkId,
};

#[track_caller]
fn refused<T: std::fmt::Debug>(done: Result<T, sightedge_studio::Error>, wanted: &str) {
    let words = done.unwrap_err().to_string();
    assert!(words.contains(wanted), "{words}");
}

fn moved(to: State, place: &str) -> Change {
    Change::Move { to, place: Some(place.into()), buyer: None, price: None }
}

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
        "the edition is one of 3, and all of them are issued: no number is free",
    );
    refused(
        record.issue(&number(edition, Kind::Numbered, 4), &now()),
        "the edition is one of 3, and number 4 was asked for: choose one from 1 to 3",
    );
    refused(
        record.issue(&number(edition, Kind::Numbered, 0), &now()),
        "number 0 was asked for: choose one from 1 to 3",
    );
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
        "the number is held by another print, and a free one is wanted",
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
    assert!(history[1].told.contains("\"state\":\"voided\""), "{}", history[1].told);
    refused(
        record.change(second.id, &moved(State::Sold, ""), &now()),
        "the print gave up number 2 (it is voided)",
    );
    assert_eq!(record.prints(edition).unwrap().len(), 4, "nothing is deleted");
    let sold = record.change(again.id, &moved(State::Sold, ""), &now()).unwrap();
    refused(
        record.change(sold.id, &Change::Void, &now()),
        "number 2 was to be voided, and a number nobody has is wanted: this print is sold",
    );
}

#[test]
fn a_destroyed_print_is_replaced_under_its_number() {
    let (_folder, mut opened) = fresh();
    let record = opened.record();
    let (_, edition) = edition(record, 5);
    let print = issue(record, edition);
    refused(record.replace(print.id, &now()), "number 1 was to be replaced");
    record.change(print.id, &moved(State::Destroyed, ""), &now()).unwrap();
    // It still holds its number.
    assert_eq!(issue(record, edition).number, 2);
    refused(
        record.change(print.id, &moved(State::Show, "Harbour"), &now()),
        "the print is destroyed, and one that is there is wanted",
    );
    let new = record.replace(print.id, &Note::because(TODAY, "water")).unwrap();
    assert_eq!((new.number, new.replaces), (1, Some(print.id)));
    refused(record.replace(print.id, &now()), "number 1 was to be replaced");
    assert_eq!(record.print(print.id).unwrap().now.state, State::Destroyed);
}

/// Source: galleries' print guides: proofs at most 10 % of the edition, 5 of 50; N is fixed
/// before the first is sold.
#[test]
fn size_and_proofs_are_promised_once() {
    assert_eq!(NewEdition::of(50, 10).artist, 5);
    assert_eq!(NewEdition::of(9, 10).artist, 0);
    assert_eq!(NewEdition::of(25, 10).artist, 2);
    let (_folder, mut opened) = fresh();
    let record = opened.record();
    let (work, edition) = edition(record, 50);
    for wanted in ["AP I/V", "AP II/V", "AP III/V", "AP IV/V", "AP V/V"] {
        let proof = Issue { kind: Kind::Artist, ..next(edition) };
        let print = record.issue(&proof, &now()).unwrap();
        let what = record.edition(edition).unwrap().what;
        assert_eq!(what.notation(print.kind, print.number), wanted);
    }
    refused(
        record.issue(&Issue { kind: Kind::Artist, ..next(edition) }, &now()),
        "the edition has 5 artist's proofs in all, and all of them are issued",
    );
    // The count of numbered prints is none of theirs.
    assert_eq!(issue(record, edition).number, 1);
    let larger = NewEdition { size: 60, ..record.edition(edition).unwrap().what };
    refused(
        record.change_edition(edition, &larger, &now()),
        "its size and proofs are fixed by the first one",
    );
    let renamed = NewEdition { name: "First".into(), ..record.edition(edition).unwrap().what };
    record.change_edition(edition, &renamed, &now()).unwrap();
    let many = NewEdition { artist: 6, ..NewEdition::of(50, 10) };
    refused(
        record.open_edition(work, &many, &now()),
        "6 artist's proofs beside an edition of 50 were asked for, and at most 10 % of it, 5,",
    );
    let bat = Issue { kind: Kind::BonATirer, ..next(edition) };
    record.issue(&bat, &now()).unwrap();
    refused(record.issue(&bat, &now()), "the edition has 1 bon à tirer in all");
}

#[test]
fn a_size_can_change_before_the_first_is_issued() {
    let (_folder, mut opened) = fresh();
    let record = opened.record();
    let (_, edition) = edition(record, 50);
    record.change_edition(edition, &NewEdition::of(30, 20), &now()).unwrap();
    let what = record.edition(edition).unwrap().what;
    assert_eq!((what.size, what.artist), (30, 6));
    // One given in error and voided is none.
    let print = issue(record, edition);
    record.change(print.id, &Change::Void, &now()).unwrap();
    record.change_edition(edition, &NewEdition::of(20, 10), &now()).unwrap();
}

#[test]
fn an_edition_under_way_is_taken_over() {
    let (_folder, mut opened) = fresh();
    let record = opened.record();
    let (_, edition) = edition(record, 100);
    let taken = |from, to, unknown: &[u32]| TakenOver {
        edition,
        from,
        to,
        unknown: unknown.to_vec(),
        state: State::Sold,
    };
    assert_eq!(record.take_over(&taken(1, 47, &[13, 22]), &now()).unwrap(), 47);
    assert_eq!(issue(record, edition).number, 48);
    let prints = record.prints(edition).unwrap();
    let unknown = prints.iter().filter(|print| print.now.state == State::Unknown);
    assert_eq!(unknown.map(|print| print.number).collect::<Vec<_>>(), [13, 22]);
    refused(record.take_over(&taken(47, 60, &[]), &now()), "the number is held by another");
    assert_eq!(record.prints(edition).unwrap().len(), 48, "all or none");
    refused(
        record.take_over(&taken(90, 101, &[]), &now()),
        "numbers 90 to 101 were to be taken over, and numbers from 1 to 100 are wanted",
    );
    refused(record.take_over(&taken(60, 61, &[70]), &now()), "number 70 is said to be out");
}

#[test]
fn one_edition_a_format_or_one_across_all() {
    let (_folder, mut opened) = fresh();
    let record = opened.record();
    let work = record.add_work(&NewWork::default(), None, &now()).unwrap();
    let small = record.add_format(work, &NewFormat::default(), &now()).unwrap();
    let large = record.add_format(work, &NewFormat::default(), &now()).unwrap();
    let of = |format| NewEdition { format, ..NewEdition::of(10, 10) };
    let first = record.open_edition(work, &of(Some(small)), &now()).unwrap();
    record.open_edition(work, &of(Some(large)), &now()).unwrap();
    refused(
        record.open_edition(work, &of(Some(large)), &now()),
        "there is an edition of this already",
    );
    refused(
        record.open_edition(work, &of(None), &now()),
        "counts either across all formats or within each one",
    );
    assert_eq!(issue(record, first).now.format, Some(small));
    let mut other = next(first);
    other.stock.format = Some(large);
    refused(record.issue(&other, &now()), "a format of another work or edition was given");
    let across = record.add_work(&NewWork::default(), None, &now()).unwrap();
    record.open_edition(across, &of(None), &now()).unwrap();
    refused(record.open_edition(across, &of(None), &now()), "there is an edition of this");
    refused(
        record.open_edition(across, &of(Some(small)), &now()),
        "counts either across all formats or within each one",
    );
}

/// A size typed wrong is put right by a new entry; what was said before stays to be read.
#[test]
fn a_format_is_put_right() {
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
    assert!(entries[0].told.contains("\"image_w\":274320000"), "{}", entries[0].told);
    assert!(entries[1].told.contains("\"image_w\":201168000"), "{}", entries[1].told);
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
fn a_print_is_put_right() {
    let (_folder, mut opened) = fresh();
    let record = opened.record();
    let (_, edition) = edition(record, 5);
    let print = issue(record, edition);
    let sold = record.change(print.id, &moved(State::Destroyed, ""), &now()).unwrap();
    let right = |state, place: &str| {
        let place = place.to_owned();
        Change::Correct(Box::new(Stock { state, place, ..sold.now.clone() }))
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

#[test]
fn prices_follow_the_number() {
    let (_folder, mut opened) = fresh();
    let record = opened.record();
    let (_, edition) = edition(record, 10);
    let price = |cents| Money { cents, currency: "EUR".into() };
    for (from, cents) in [(1, 80_000), (3, 120_000)] {
        record.set_tier(&Tier { edition, from, price: price(cents) }, &now()).unwrap();
    }
    refused(
        record.set_tier(&Tier { edition, from: 11, price: price(1) }, &now()),
        "a number beyond the edition was given",
    );
    let entries = record.history(Subject::Edition(edition)).unwrap();
    let told: Vec<_> = entries.iter().map(|one| one.subject.as_str()).collect();
    assert_eq!(told, ["edition", "tier", "tier"], "what it costs is of its history");
    let cents: Vec<i64> =
        (0..4).map(|_| issue(record, edition).now.price.unwrap().cents).collect();
    assert_eq!(cents, [80_000, 80_000, 120_000, 120_000]);
    let first = record.prints(edition).unwrap()[0].id;
    let sold = Change::Move {
        to: State::Sold,
        place: None,
        buyer: Some("B. of Ostend".into()),
        price: Some(price(75_000)),
    };
    record.change(first, &sold, &now()).unwrap();
    let sums = record.sums().unwrap();
    assert_eq!(sums.len(), 1);
    assert_eq!((sums[0].sold, sums[0].sold_cents), (1, 75_000));
    assert_eq!((sums[0].offered, sums[0].offered_cents), (3, 320_000));
}

#[test]
fn shows_list_what_is_there() {
    let (_folder, mut opened) = fresh();
    let record = opened.record();
    let (work, edition) = edition(record, 10);
    refused(
        {
            let print = issue(record, edition);
            record.change(print.id, &moved(State::Show, " "), &now())
        },
        "a print goes to a show that is not named",
    );
    let print = record.prints(edition).unwrap()[0].id;
    record.change(print, &moved(State::Show, "Harbour"), &now()).unwrap();
    let second = issue(record, edition).id;
    record.change(second, &moved(State::Show, "Harbour"), &now()).unwrap();
    assert_eq!(record.shows().unwrap(), [("Harbour".to_owned(), 2)]);
    let listed = record.at_show("Harbour").unwrap();
    assert_eq!(listed.len(), 2);
    assert_eq!((listed[0].0.id, listed[0].1.id, listed[0].2.number), (work, edition, 1));
    let back = Change::Move { to: State::Returned, place: None, buyer: None, price: None };
    assert_eq!(record.change(print, &back, &now()).unwrap().now.place, "");
    assert_eq!(record.shows().unwrap(), [("Harbour".to_owned(), 1)]);
    let index = record.index().unwrap();
    let totals = index[0].editions[0].totals;
    assert_eq!((totals.issued, totals.show, totals.studio), (2, 1, 1));
}

#[test]
fn what_is_no_day_price_or_thing_is_said_so() {
    let (_folder, mut opened) = fresh();
    let record = opened.record();
    let (_, edition) = edition(record, 10);
    for day in ["", "yesterday", "2025-13-01", "2025-1-1", "30.11.2025", "2025-11-3x"] {
        refused(record.issue(&next(edition), &Note::at(day)), "is no day for the date");
    }
    let printed = |day: &str| {
        let stock = Stock { printed: day.into(), ..Stock::default() };
        Issue { stock, ..next(edition) }
    };
    refused(record.issue(&printed("May"), &now()), "\"May\" is no day for the day of printing");
    refused(record.issue(&next(EditionId(99)), &now()), "there is no edition 99");
    let destroyed = Stock { state: State::Destroyed, ..Stock::default() };
    refused(
        record.issue(&Issue { stock: destroyed, ..next(edition) }, &now()),
        "a new print was to be destroyed, and one that is there is wanted",
    );
    assert!(record.prints(edition).unwrap().is_empty());
}

#[test]
fn prices_are_read() {
    #[track_caller]
    fn case(text: &str, wanted: &str) {
        let read = Money::read(text, "EUR");
        assert_eq!(read.map_or_else(|error| error, |money| money.to_string()), wanted);
    }
    case("1200", "1200.00 EUR");
    case("1200.5 usd", "1200.50 USD");
    case("0.05 GBP", "0.05 GBP");
    case("-5", "\"-5\" is no price: try 1200 or 1200.50 EUR");
    case("12.345", "\"12.345\" is no price: try 1200 or 1200.50 EUR");
    case("12 Euro", "\"12 Euro\" is no price: try 1200 or 1200.50 EUR");
    case("", "\"\" is no price: try 1200 or 1200.50 EUR");
    case(
        "99999999999999999999",
        "\"99999999999999999999\" is no price: try 1200 or 1200.50 EUR",
    );
}

#[test]
fn catalogue_numbers_are_of_one_work() {
    let (_folder, mut opened) = fresh();
    let record = opened.record();
    let work = NewWork::default();
    record.add_work(&work, Some("W0002"), &now()).unwrap();
    let next = record.add_work(&work, None, &now()).unwrap();
    assert_eq!(record.work(next).unwrap().catalogue, "W0003", "W0002 is taken");
    refused(record.add_work(&work, Some("W0002"), &now()), "the catalogue number is taken");
}

/// The last one to know which number is to be chosen is the database.
#[test]
fn the_plan_finds_its_print() {
    let (_folder, mut opened) = fresh();
    let record = opened.record();
    let (_, edition) = edition(record, 10);
    let stock = Stock { plan: "abc".into(), ..Stock::default() };
    let made =
        record.issue(&Issue { stock, choice: Choice::Next, ..next(edition) }, &now()).unwrap();
    assert_eq!(record.print_of_plan("abc").unwrap(), Some(made.clone()));
    assert_eq!(record.print_of_plan("").unwrap(), None);
    record.change(made.id, &Change::Void, &now()).unwrap();
    assert_eq!(record.print_of_plan("abc").unwrap(), None);
    assert_eq!(record.check().unwrap(), Vec::<String>::new());
}

/// What comes back from a sale has no buyer and costs what it did; the sale stays in the history.
#[test]
fn what_comes_back_is_asked_for_as_before() {
    let (_folder, mut opened) = fresh();
    let record = opened.record();
    let (_, of) = edition(record, 25);
    let eur = |cents| Money { cents, currency: "EUR".to_owned() };
    record.set_tier(&Tier { edition: of, from: 1, price: eur(80_000) }, &now()).unwrap();
    let id = issue(record, of).id;
    let sold = Change::Move {
        to: State::Sold,
        place: None,
        buyer: Some("B. of Ostend".to_owned()),
        price: Some(eur(75_000)),
    };
    assert_eq!(record.change(id, &sold, &now()).unwrap().now.price, Some(eur(75_000)));
    let back = Change::Move { to: State::Returned, place: None, buyer: None, price: None };
    let there = record.change(id, &back, &now()).unwrap().now;
    assert_eq!((there.buyer.as_str(), there.price), ("", Some(eur(80_000))));
    let sums = record.sums().unwrap();
    assert_eq!((sums[0].sold, sums[0].offered, sums[0].offered_cents), (0, 1, 80_000));
    let history = record.history(Subject::Print(id)).unwrap();
    assert!(history[1].told.contains("B. of Ostend") && history[1].told.contains("75000"));
}
