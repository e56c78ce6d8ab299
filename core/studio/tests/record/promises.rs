//! What an edition promises, and which works and sizes it counts.

use sightedge_studio::{Change, Issue, Kind, NewEdition, NewFormat, NewWork};

use super::support::{edition, fresh, issue, next, now, refused};

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
        "this edition has 5 artist's proofs, and no number is free",
    );
    // The count of numbered prints is none of theirs.
    assert_eq!(issue(record, edition).number, 1);
    let larger = NewEdition { size: 60, ..record.edition(edition).unwrap().what };
    refused(
        record.change_edition(edition, &larger, &now()),
        "so its size and proofs are fixed",
    );
    let renamed = NewEdition { name: "First".into(), ..record.edition(edition).unwrap().what };
    record.change_edition(edition, &renamed, &now()).unwrap();
    let many = NewEdition { artist: 6, ..NewEdition::of(50, 10) };
    refused(
        record.open_edition(work, &many, &now()),
        "6 artist's proofs are too many beside an edition of 50: 10 % of it allows 5",
    );
    let bat = Issue { kind: Kind::BonATirer, ..next(edition) };
    record.issue(&bat, &now()).unwrap();
    refused(
        record.issue(&bat, &now()),
        "this edition has 1 bon à tirer, and no number is free",
    );
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
        "counts either all sizes together or one size alone",
    );
    assert_eq!(issue(record, first).now.format, Some(small));
    let mut other = next(first);
    other.stock.format = Some(large);
    refused(record.issue(&other, &now()), "this size belongs to another work or edition");
    let across = record.add_work(&NewWork::default(), None, &now()).unwrap();
    record.open_edition(across, &of(None), &now()).unwrap();
    refused(record.open_edition(across, &of(None), &now()), "there is an edition of this");
    refused(
        record.open_edition(across, &of(Some(small)), &now()),
        "counts either all sizes together or one size alone",
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
    refused(
        record.add_work(&work, Some("W0002"), &now()),
        "another work has this catalogue number",
    );
}
