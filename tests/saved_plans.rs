//! Plans are saved without loss, and every version that was released still opens.

use sightedge_core::file::{read, read_versioned, write};
use sightedge_core::layout::layout;
use sightedge_core::spec::Document;
use sightedge_tests::plans;
use sightedge_tests::random::Random;

/// What version 5 saves opens and means what it meant. While it is the version that is written,
/// it is also written so, to the byte.
#[test]
fn version_5_opens() {
    #[track_caller]
    fn case(name: &str, saved: &str, meant: &Document) {
        let found = read_versioned(saved, name).unwrap_or_else(|error| panic!("{error}"));
        assert_eq!(found.version, 5, "{name}");
        assert_eq!(found.document, *meant, "{name}");
        assert_eq!(write(meant), saved, "{name}");
    }
    macro_rules! saved {
        ($name:literal) => {
            include_str!(concat!("saved/v5/", $name, ".sightedge.ron"))
        };
    }
    case("reference", saved!("reference"), &plans::reference());
    case("in hand", saved!("in-hand"), &plans::in_hand());
    case("every option", saved!("every-option"), &plans::every_option());
    case("assembly", saved!("assembly"), &plans::behind_the_mat());
    case("partly", saved!("partly"), &plans::partly_decided());
    case("inscribed", saved!("inscribed"), &plans::inscribed_print());
    case("partly cut", saved!("partly-cut"), &plans::partly_cut());
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
