//! Plans are saved without loss, and every version ever written still opens.

use sightedge_core::file::{find, read, write};
use sightedge_core::layout::layout;
use sightedge_core::spec::Document;
use sightedge_tests::plans;
use sightedge_tests::random::Random;

/// What was saved by version 1 of the form opens for ever and means what it meant.
#[test]
fn version_1_opens() {
    #[track_caller]
    fn case(name: &str, saved: &str, meant: &Document) {
        let found = find(saved, name).unwrap_or_else(|error| panic!("{error}"));
        assert_eq!(found.version, 1, "{name}");
        assert_eq!(found.document, *meant, "{name}");
    }
    case("reference", include_str!("saved/v1/reference.sightedge.ron"), &plans::reference());
    case("in hand", include_str!("saved/v1/in-hand.sightedge.ron"), &plans::in_hand());
    case(
        "every option",
        include_str!("saved/v1/every-option.sightedge.ron"),
        &plans::every_option(),
    );
}

/// So does what was saved by version 2.
#[test]
fn version_2_opens() {
    #[track_caller]
    fn case(name: &str, saved: &str, meant: &Document) {
        let found = find(saved, name).unwrap_or_else(|error| panic!("{error}"));
        assert_eq!(found.version, 2, "{name}");
        assert_eq!(found.document, *meant, "{name}");
    }
    case("reference", include_str!("saved/v2/reference.sightedge.ron"), &plans::reference());
    case("behind", include_str!("saved/v2/behind.sightedge.ron"), &plans::behind_the_mat());
    case("partly", include_str!("saved/v2/partly.sightedge.ron"), &plans::partly_decided());
}

/// So does what was saved by version 3.
#[test]
fn version_3_opens() {
    #[track_caller]
    fn case(name: &str, saved: &str, meant: &Document) {
        let found = find(saved, name).unwrap_or_else(|error| panic!("{error}"));
        assert_eq!(found.version, 3, "{name}");
        assert_eq!(found.document, *meant, "{name}");
    }
    case("reference", include_str!("saved/v3/reference.sightedge.ron"), &plans::reference());
    case(
        "inscribed",
        include_str!("saved/v3/inscribed.sightedge.ron"),
        &plans::inscribed_print(),
    );
}

/// So does what is saved by version 4.
#[test]
fn version_4_opens() {
    #[track_caller]
    fn case(name: &str, saved: &str, meant: &Document) {
        let found = find(saved, name).unwrap_or_else(|error| panic!("{error}"));
        assert_eq!(found.version, 4, "{name}");
        assert_eq!(found.document, *meant, "{name}");
    }
    case("reference", include_str!("saved/v4/reference.sightedge.ron"), &plans::reference());
    case("partly cut", include_str!("saved/v4/partly-cut.sightedge.ron"), &plans::partly_cut());
}

/// A plan that was saved opens as the same plan, and can be laid out whatever it holds.
#[test]
fn a_saved_plan_is_the_same_when_opened() {
    for seed in 0..2000 {
        let document = plans::any(&mut Random::new(seed));
        let text = write(&document);
        match read(&text, "plan") {
            Ok(opened) => assert_eq!(opened, document, "seed {seed}: {text}"),
            Err(error) => panic!("seed {seed}: {error}\n{text}"),
        }
        for variant in &document.variants {
            let laid = layout(&document, &variant.mat);
            assert_eq!(laid.exact.openings.len(), variant.mat.openings.len(), "seed {seed}");
        }
    }
}
