//! What prints cost, where they hang, who has them.

use sightedge_studio::{
    Change, Choice, EditionId, Issue, Money, Price, PrintDetails, State, Subject, Tier,
};

use super::support::{edition, fresh, issue, moved, next, now, refused};

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
        record.set_tier(&Tier { edition: EditionId(99), from: 1, price: price(1) }, &now()),
        "99",
    );
    refused(
        record.set_tier(&Tier { edition, from: 11, price: price(1) }, &now()),
        "the number is beyond the edition",
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
        buyer: Some("B. of Ostmere".into()),
        price: Some(price(75_000)),
    };
    record.change(first, &sold, &now()).unwrap();
    let sums = record.sums().unwrap();
    assert_eq!(sums.len(), 1);
    assert_eq!((sums[0].sold, sums[0].sold_cents), (1, 75_000));
    assert_eq!((sums[0].offered, sums[0].offered_cents), (3, 320_000));
}

/// Whoever names a price when a print is issued has thought of it: the tier is for the others.
#[test]
fn a_price_of_its_own_stays() {
    let (_folder, mut opened) = fresh();
    let record = opened.record();
    let (_, edition) = edition(record, 10);
    let price = |cents| Some(Money { cents, currency: "EUR".into() });
    let tier = Tier { edition, from: 1, price: price(80_000).unwrap() };
    record.set_tier(&tier, &now()).unwrap();
    let stock = PrintDetails { price: price(95_000), ..PrintDetails::default() };
    let own = record.issue(&Issue { stock, ..next(edition) }, &now()).unwrap();
    assert_eq!(own.now.price, price(95_000));
    assert_eq!(issue(record, edition).now.price, price(80_000));
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
        "the show has no name: type which show",
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
fn prices_are_read() {
    #[track_caller]
    fn case(text: &str, wanted: &str) {
        let read = Price::read(text).map(|price| price.or_in("EUR").to_string());
        assert_eq!(read.unwrap_or_else(|error| error), wanted);
    }
    case("1200", "1200.00 EUR");
    case("1200.5 usd", "1200.50 USD");
    case("0.05 GBP", "0.05 GBP");
    case("-5", "\"-5\" is no price: try 1200 or 1200.50 EUR");
    case("12.345", "\"12.345\" is no price: try 1200 or 1200.50 EUR");
    case("12 Euro", "\"12 Euro\" is no price: try 1200 or 1200.50 EUR");
    case("x.50", "\"x.50\" is no price: try 1200 or 1200.50 EUR");
    case("12.x", "\"12.x\" is no price: try 1200 or 1200.50 EUR");
    case("", "\"\" is no price: try 1200 or 1200.50 EUR");
    case(
        "99999999999999999999",
        "\"99999999999999999999\" is no price: try 1200 or 1200.50 EUR",
    );
}

/// What comes back from a sale has no buyer and costs what it did; the sale stays in the history.
#[test]
fn a_returned_print_has_its_old_price() {
    let (_folder, mut opened) = fresh();
    let record = opened.record();
    let (_, of) = edition(record, 25);
    let eur = |cents| Money { cents, currency: "EUR".to_owned() };
    record.set_tier(&Tier { edition: of, from: 1, price: eur(80_000) }, &now()).unwrap();
    let id = issue(record, of).id;
    let sold = Change::Move {
        to: State::Sold,
        place: None,
        buyer: Some("B. of Ostmere".to_owned()),
        price: Some(eur(75_000)),
    };
    assert_eq!(record.change(id, &sold, &now()).unwrap().now.price, Some(eur(75_000)));
    let back = Change::Move { to: State::Returned, place: None, buyer: None, price: None };
    let there = record.change(id, &back, &now()).unwrap().now;
    assert_eq!((there.buyer.as_str(), there.price), ("", Some(eur(80_000))));
    let sums = record.sums().unwrap();
    assert_eq!((sums[0].sold, sums[0].offered, sums[0].offered_cents), (0, 1, 80_000));
    let history = record.history(Subject::Print(id)).unwrap();
    assert!(
        history[1].payload.contains("B. of Ostmere") && history[1].payload.contains("75000")
    );
}

/// The currency is that of the last price, noted with it; what is refused notes none.
#[test]
fn the_last_currency_is_that_of_the_last_price() {
    let (_folder, mut opened) = fresh();
    let record = opened.record();
    let (_, of) = edition(record, 25);
    let last = |record: &dyn sightedge_studio::Record| record.last_currency().unwrap();
    let price = |currency: &str| Money { cents: 1, currency: currency.to_owned() };
    assert_eq!(last(record), None);
    record.set_tier(&Tier { edition: of, from: 1, price: price("CHF") }, &now()).unwrap();
    assert_eq!(last(record).as_deref(), Some("CHF"));
    let priced = |currency: &str, choice| {
        let stock = PrintDetails { price: Some(price(currency)), ..PrintDetails::default() };
        Issue { stock, choice, ..next(of) }
    };
    let beyond = record.issue(&priced("GBP", Choice::Number(26)), &now());
    refused(beyond, "this edition has 25 prints; 26 is beyond it");
    refused(record.issue(&priced("pound", Choice::Next), &now()), "is no price");
    assert_eq!(last(record).as_deref(), Some("CHF"));
    record.issue(&priced("GBP", Choice::Next), &now()).unwrap();
    // Its tier's price was noted long ago.
    let print = issue(record, of);
    assert_eq!(last(record).as_deref(), Some("GBP"));
    let sold =
        Change::Move { to: State::Sold, place: None, buyer: None, price: Some(price("USD")) };
    let sold = record.change(print.id, &sold, &now()).unwrap();
    assert_eq!(last(record).as_deref(), Some("USD"));
    let now_stock = PrintDetails { price: Some(price("JPY")), ..sold.now.clone() };
    record.change(print.id, &Change::Correct(Box::new(now_stock)), &now()).unwrap();
    assert_eq!(last(record).as_deref(), Some("JPY"));
}
