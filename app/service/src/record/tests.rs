//! Each change of the record once: its checks, and that it is done whole or not at all.

use sightedge_studio::{
    Choice, EditionId, Kind, NewEdition, NewFormat, NewWork, Note, Opened, Price, Print,
    Record, State, WorkId, WorkRef, open,
};

use super::*;

const TODAY: &str = "2025-11-30";

fn now() -> Note {
    Note::at(TODAY)
}

fn fresh() -> (tempfile::TempDir, Opened) {
    let folder = tempfile::tempdir().unwrap();
    let opened = open(folder.path(), TODAY).unwrap();
    (folder, opened)
}

fn beginning(title: &str, size: u32) -> Registering {
    let work = NewWork { title: title.to_owned(), ..NewWork::default() };
    Registering {
        work: WorkRef::New(Box::new(work), None),
        format: NewFormat::default(),
        alone: false,
        edition: Some(NewEdition::of(size, 10)),
        prices: Vec::new(),
        out: None,
    }
}

fn begun(record: &mut dyn Record) -> (WorkId, EditionId) {
    let (work, edition) = register(record, beginning("Weir", 25), &now()).unwrap();
    (work, edition.unwrap())
}

fn price(text: &str) -> Price {
    Price::read(text).unwrap()
}

fn issued(record: &mut dyn Record, edition: EditionId) -> Print {
    let issuing = Issuing::of(edition, Kind::Numbered, Choice::Next);
    issue(record, issuing, &now()).unwrap().print
}

#[track_caller]
fn refused<T: std::fmt::Debug>(done: Result<T, sightedge_studio::Error>, wanted: &str) {
    let words = done.unwrap_err().to_string();
    assert!(words.contains(wanted), "{words}");
}

/// A price without a currency is in the record's, which is asked for once.
#[test]
fn prices_of_an_edition() {
    let (_folder, mut opened) = fresh();
    let record = opened.record();
    let priced = |prices: Vec<(u32, Price)>| Registering { prices, ..beginning("Weir", 25) };
    let words = |record: &dyn Record, edition: Option<EditionId>| {
        prices_in_words(&record.tiers(edition.unwrap()).unwrap())
    };
    let bare = vec![(1, price("800")), (11, price("900 CHF"))];
    refused(
        register(record, priced(bare), &now()),
        "which currency is the price 800.00 in? Type it once, as in 800.00 EUR: prices without a \
         currency are in that one from then on",
    );
    assert_eq!(price_hint(record.last_currency().unwrap().as_deref()), "as in 800 EUR");
    let first = vec![(1, price("800 EUR")), (11, price("900 CHF")), (21, price("1000"))];
    let (_, edition) = register(record, priced(first), &now()).unwrap();
    assert_eq!(
        words(record, edition),
        "800.00 EUR, from 11 on 900.00 CHF, from 21 on 1000.00 CHF"
    );
    let (_, edition) = register(record, priced(vec![(2, price("5"))]), &now()).unwrap();
    assert_eq!(words(record, edition), "from 2 on 5.00 CHF");
    assert_eq!(price_hint(record.last_currency().unwrap().as_deref()), "in CHF, as in 800");
    for from in [0, 26] {
        refused(
            register(record, priced(vec![(from, price("5"))]), &now()),
            &format!("a price starts at number {from}, but the edition has 25"),
        );
    }
    refused(
        register(record, priced(vec![(3, price("5")), (3, price("6"))]), &now()),
        "two prices start at number 3: leave one out",
    );
    assert_eq!(record.index().unwrap().len(), 2, "what is refused is not begun");
}

#[test]
fn a_work_without_a_title_and_a_size_without_measures_are_not_begun() {
    let (_folder, mut opened) = fresh();
    let record = opened.record();
    refused(register(record, beginning(" ", 25), &now()), "no title was given");
    let (work, _) = begun(record);
    let size = |name: &str, width| Registering {
        work: WorkRef::Existing(work),
        format: NewFormat { name: name.to_owned(), sheet_w: width, ..NewFormat::default() },
        edition: None,
        ..beginning("", 0)
    };
    refused(register(record, size("large", 0), &now()), "no size was given: width and height");
    register(record, size("large", 7), &now()).unwrap();
    assert_eq!(record.formats(work).unwrap().len(), 1);
}

/// A show is one however it is typed; what is neither at a show nor sold is at none.
#[test]
fn where_prints_go() {
    let (_folder, mut opened) = fresh();
    let record = opened.record();
    let (_, edition) = begun(record);
    let (one, two) = (issued(record, edition).id, issued(record, edition).id);
    let go = |record: &mut dyn Record, print, to, place: &str| {
        let place = Some(place.to_owned());
        let going = Going { to, place, ..Going::default() };
        change_print(record, print, Doing::Go(going), &now())
    };
    go(record, one, State::Show, "Harbour Hall").unwrap();
    let there = go(record, two, State::Sold, " harbour  hall").unwrap();
    assert_eq!(details_in_words(&there.now), ["sold at Harbour Hall"]);
    for to in [State::Studio, State::Returned, State::Destroyed, State::Unknown] {
        let words = format!("a print that is {} is at no show, but Harbour Hall", to.name());
        refused(go(record, one, to, "Harbour Hall"), &words);
        assert_eq!(record.print(one).unwrap().now.state, State::Show);
    }
    let correct = |record: &mut dyn Record, state, place: Option<&str>| {
        let was = record.print(one).unwrap();
        let place = place.map(ToOwned::to_owned);
        let what = PrintCorrection { state, place, ..PrintCorrection::default() };
        correct_print(record, &was, what, &now())
    };
    refused(
        correct(record, Some(State::Studio), Some("Harbour Hall")),
        "was given as one: leave the show out",
    );
    refused(correct(record, None, Some(" ")), "the show has no name: type which show");
    let studio = correct(record, Some(State::Studio), None).unwrap();
    assert_eq!(studio.now.place, "", "a print that left the show keeps no show's name");
    let entries = record.history(sightedge_studio::Subject::Print(one)).unwrap().len();
    assert_eq!(correct(record, Some(State::Studio), None).unwrap(), studio);
    let same = record.history(sightedge_studio::Subject::Print(one)).unwrap().len();
    assert_eq!(entries, same, "what is so already makes no entry");
}

#[test]
fn several_numbers_go_at_once_or_none() {
    let (_folder, mut opened) = fresh();
    let record = opened.record();
    let (_, edition) = begun(record);
    let go = |record: &mut dyn Record, numbers: &[u32], to, price: Option<&str>| {
        let price = price.map(|text| Price::read(text).unwrap());
        let place = (to == State::Show).then(|| "Hall".to_owned());
        let prints = holding(record, edition, numbers)?;
        several(record, &prints, Going { to, place, price, ..Going::default() }, &now())
    };
    refused(go(record, &[], State::Sold, None), "no number is named");
    refused(go(record, &[1], State::Sold, None), "number 1 is not issued: nothing was changed");
    for _ in 0..4 {
        issued(record, edition);
    }
    refused(go(record, &[1], State::Voided, None), "void or replace one at a time");
    refused(go(record, &[1], State::Unknown, None), "say where they are");
    refused(go(record, &[1, 5], State::Sold, None), "number 5 is not issued");
    let states = |record: &dyn Record| -> Vec<State> {
        record.prints(edition).unwrap().iter().map(|print| print.now.state).collect()
    };
    // Each is sold at that price.
    let sold = go(record, &[1, 3], State::Sold, Some("9 EUR")).unwrap();
    let prices: Vec<_> = sold.iter().map(|print| print.now.price.clone().unwrap()).collect();
    assert_eq!(prices.iter().map(ToString::to_string).collect::<Vec<_>>(), ["9.00 EUR"; 2]);
    refused(
        go(record, &[2, 3], State::Sold, Some("5")),
        "number 3 is sold already, so nothing was changed: leave it out, or correct it by itself",
    );
    assert_eq!(states(record), [State::Sold, State::Studio, State::Sold, State::Studio]);
    let were: Vec<Print> = record.prints(edition).unwrap().drain(1..).collect();
    // A sold one goes along only where it is returned.
    refused(go(record, &[2, 3], State::Show, None), "number 3 is sold already");
    let mut made = go(record, &[3, 4], State::Returned, None).unwrap();
    made.insert(0, go(record, &[2], State::Show, None).unwrap().remove(0));
    assert_eq!(states(record)[1..], [State::Show, State::Returned, State::Returned]);
    several_back(record, &made, &were, &now()).unwrap();
    assert_eq!(record.prints(edition).unwrap()[1..], were);
    refused(
        several_back(record, &made, &were, &now()),
        "a print was changed by another window or program",
    );
}

/// A show renamed is one with another of that name; its prints tell it, and it is undone.
#[test]
fn shows_are_renamed_and_joined() {
    let (_folder, mut opened) = fresh();
    let record = opened.record();
    let (_, edition) = begun(record);
    let ids = [(); 3].map(|()| issued(record, edition).id);
    let go = |record: &mut dyn Record, prints: &[PrintId], place: &str| {
        let place = Some(place.to_owned());
        several(record, prints, Going { to: State::Show, place, ..Going::default() }, &now())
    };
    go(record, &ids[..2], "harbor hall").unwrap();
    go(record, &ids[2..], "Harbour Hall").unwrap();
    refused(rename_show(record, "Quay", "X", &now()), "no print is at a show named Quay");
    refused(rename_show(record, "harbor hall", " ", &now()), "the show needs a name");
    refused(
        rename_show(record, "harbor hall", "harbor  hall", &now()),
        "the show has the name harbor hall already",
    );
    let capitals = rename_show(record, "Harbor hall", "Harbor Hall", &now()).unwrap();
    assert_eq!((capitals.made.len(), capitals.joined), (2, 0));
    let joined = rename_show(record, "Harbor Hall", "harbour hall", &now()).unwrap();
    assert_eq!((joined.made.len(), joined.joined), (2, 1));
    assert_eq!(record.shows().unwrap(), [("Harbour Hall".to_owned(), 3)]);
    several_back(record, &joined.made, &joined.were, &now()).unwrap();
    assert_eq!(
        record.shows().unwrap(),
        [("Harbor Hall".to_owned(), 2), ("Harbour Hall".to_owned(), 1)]
    );
}

/// A mistaken work leaves the list with a reason and comes back; so is a catalogue number corrected.
#[test]
fn a_work_is_withdrawn_and_renumbered_with_a_reason() {
    let (_folder, mut opened) = fresh();
    let record = opened.record();
    let (work, edition) = begun(record);
    let why = Note::because(TODAY, "entered twice");
    let withdraw =
        |withdrawn| Correcting { withdrawn: Some(withdrawn), ..Correcting::default() };
    let words = "a work is withdrawn only with a reason: say why";
    refused(correct(record, work, withdraw(true), &now()), words);
    let print = issued(record, edition);
    refused(correct(record, work, withdraw(true), &why), "prints of this work are issued");
    change_print(record, print.id, Doing::Void, &now()).unwrap();
    let done = correct(record, work, withdraw(true), &why).unwrap();
    let listed =
        |record: &dyn Record, which| found(&record.index().unwrap(), "", &[], which).len();
    assert_eq!(listed(record, Withdrawn::Hidden), 0);
    assert_eq!(listed(record, Withdrawn::Only), 1);
    correct_back(record, work, &done.made, &done.back.unwrap(), &now()).unwrap();
    assert_eq!(listed(record, Withdrawn::Hidden), 1);
    assert!(!correct(record, work, withdraw(false), &now()).unwrap().any(), "it is back");

    let number = |was: &str, now: &str| Correcting {
        catalogue: Some((was.to_owned(), now.to_owned())),
        ..Correcting::default()
    };
    let words = "a catalogue number is changed only with a reason: say why";
    refused(correct(record, work, number("W0001", "A7"), &now()), words);
    refused(
        correct(record, work, number("W0002", "A7"), &why),
        "the catalogue number was changed",
    );
    refused(correct(record, work, number("W0001", " "), &why), "the catalogue number is empty");
    let done = correct(record, work, number("W0001", " A7 "), &why).unwrap();
    assert_eq!(record.work(work).unwrap().catalogue, "A7");
    correct_back(record, work, &done.made, &done.back.unwrap(), &now()).unwrap();
    assert_eq!(record.work(work).unwrap().catalogue, "W0001");
}

/// A replacement cannot be undone, so it is asked for; all else can be.
#[test]
fn only_a_replacement_is_asked_for() {
    let (_folder, mut opened) = fresh();
    let record = opened.record();
    let (_, edition) = begun(record);
    let print = issued(record, edition);
    let edition = record.edition(edition).unwrap();
    let asks = |doing: &Doing, print: &Print| question_before(doing, &edition, print);
    assert_eq!(asks(&Doing::Replace, &print), None, "it is refused");
    refused(
        change_print(record, print.id, Doing::Replace, &now()),
        "cannot be replaced: the print is in the studio",
    );
    let gone = Doing::Go(Going { to: State::Destroyed, ..Going::default() });
    let print = change_print(record, print.id, gone, &now()).unwrap();
    let words = "A new print gets the number 1/25; the destroyed one stays in the history. This \
                 cannot be undone.";
    assert_eq!(asks(&Doing::Replace, &print).as_deref(), Some(words));
    assert_eq!(asks(&Doing::Void, &print), None);
    change_print(record, print.id, Doing::Replace, &now()).unwrap();
    let replaced = record.print(print.id).unwrap();
    assert_eq!(asks(&Doing::Replace, &replaced), None, "it gave up its number");
}

/// A correction is undone, unless others changed it since, or a first price is set.
#[test]
fn a_correction_and_back() {
    let (_folder, mut opened) = fresh();
    let record = opened.record();
    let (id, edition) = begun(record);
    let correcting = |record: &dyn Record, title: &str, prices: Vec<(u32, Price)>| {
        let was = record.work(id).unwrap();
        let now = NewWork { title: title.to_owned(), ..was.what.clone() };
        let of = record.edition(edition).unwrap();
        let tiers = record.tiers(edition).unwrap();
        let terms = EditionTerms { now: of.what.clone(), was: of, tiers, prices };
        Correcting { work: Some((was, now)), edition: Some(terms), ..Correcting::default() }
    };
    let title = |record: &dyn Record| record.work(id).unwrap().what.title;
    let stale = correcting(record, "Lock", Vec::new());
    let same = correcting(record, "Weir", Vec::new());
    assert!(!correct(record, id, same, &now()).unwrap().any());
    let what = correcting(record, "Sluice", vec![(1, price("800 EUR"))]);
    let first = correct(record, id, what, &now()).unwrap();
    assert!(first.any() && first.back.is_none(), "a first price is set for good");
    refused(correct(record, id, stale, &now()), "the work was changed by another window");

    let what = correcting(record, "Quay", vec![(1, price("800")), (5, price("900"))]);
    let second = correct(record, id, what, &now()).unwrap();
    assert_eq!(second.made.tiers.len(), 1, "an unchanged price makes no entry");
    let back = second.back.unwrap();
    correct_back(record, id, &second.made, &back, &now()).unwrap();
    assert_eq!(title(record), "Sluice");
    let prices = prices_in_words(&record.tiers(edition).unwrap());
    assert_eq!(prices, "800.00 EUR, from 5 on 800.00 EUR");
    let again = correct_back(record, id, &second.made, &back, &now());
    refused(again, "the work was changed by another window");
}

/// By number, title, maker or medium, or by who has it, in capitals or not.
#[test]
fn works_are_found() {
    let (_folder, mut opened) = fresh();
    let record = opened.record();
    for (title, maker, medium) in
        [("Weir", "Ada Brook", "pigment print"), ("Élan", "B. Ostmere", ""), ("Lock", "", "")]
    {
        let (title, maker, medium) = (title.into(), maker.into(), medium.into());
        let work = NewWork { title, maker, medium, ..NewWork::default() };
        record.add_work(&work, None, &now()).unwrap();
    }
    let works = record.index().unwrap();
    let (_, edition) = register(record, beginning("Quay", 3), &now()).unwrap();
    let print = issued(record, edition.unwrap());
    let case = |typed: &str, held: &[WorkId], wanted: &[usize]| {
        let held: Vec<_> = held.iter().map(|work| (*work, print.clone())).collect();
        let which = Withdrawn::Hidden;
        assert_eq!(found(&works, &sought(typed), &held, which), wanted, "{typed}");
    };
    case("", &[], &[0, 1, 2]);
    case(" WEIR ", &[], &[0]);
    case("élan", &[], &[1]);
    case("brook", &[], &[0]);
    case("Pigment", &[], &[0]);
    case("w0003", &[], &[2]);
    case("ostmere", &[WorkId(3)], &[1, 2]);
    case("nobody", &[], &[]);
}
