use proptest::prelude::*;

use super::testing::*;
use super::*;
use crate::command::{Measured, apply, as_cut};
use crate::geometry::{Rect, Seen, Sides, Size};
use crate::length::Length;
use crate::length::Unit;
use crate::material::{Humidity, Paper, Rate, Tissue};
use crate::sample::{nonsense, plans};
use crate::spec::{BoardBy, FrameSize, Hangs, HingeAt, HingeKind, Limits, WindowBy};

#[test]
fn every_rule_has_its_own_name() {
    for (index, rule) in RULES.iter().enumerate() {
        assert!(RULES.iter().skip(index + 1).all(|other| other.id != rule.id), "{}", rule.id);
        assert!(rule.id.chars().all(|c| c.is_ascii_lowercase() || c == '-'), "{}", rule.id);
        assert!(!rule.judges.is_empty(), "{}", rule.id);
    }
}

/// Every file of a rule holds its words: the whole message of a finding, and what its way out is
/// called. So no word changes unseen, and each is changed in one place.
#[test]
fn every_rule_holds_its_words() {
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/src/rules");
    let shared = ["mod", "case", "least_border", "remedy", "testing", "tests"];
    let mut rules = 0;
    for entry in std::fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        let name = path.file_stem().unwrap().to_str().unwrap().to_owned();
        if shared.contains(&name.as_str()) {
            continue;
        }
        let source = std::fs::read_to_string(&path).unwrap();
        let (_, tests) = source.split_once("#[cfg(test)]").unwrap_or_default();
        let holds = ["says(", "reads("].iter().any(|call| tests.contains(call));
        assert!(holds, "{name}: no test holds a whole message; see `testing::says`");
        rules += 1;
    }
    // Two files judge what comes as an argument.
    assert_eq!(rules, RULES.len() + 2);
}

/// Source: the reference piece (D): a good mat; its invented picture has 2200 pixels on 11 in.
#[test]
fn the_reference_piece_is_sound() {
    let summary: Vec<_> = findings(&reference()).iter().map(|f| (f.severity, f.rule)).collect();
    assert_eq!(summary, [(Severity::Note, "resolution")]);
}

#[test]
fn the_worst_first_then_rule_then_place() {
    let mut document = plan(Unit::Inch, "8x10");
    let mat = mat(&mut document);
    mat.openings[0].window_by = WindowBy::Reveal(sides("-1/16,-1/8,-1/16,1/4"));
    mat.board_by = BoardBy::Borders(sides("1/4,2,3/4,2"));
    mat.backing.size = Some(size("1x30"));
    let found = findings(&document);
    assert_eq!(worst(&found), Some(Severity::Fault));
    let order = |finding: &Finding| {
        let rule = RULES.iter().position(|rule| rule.id == finding.rule);
        (std::cmp::Reverse(finding.severity), rule, finding.place)
    };
    assert!(found.is_sorted_by_key(order), "{found:#?}");
    assert!(found.len() > 8, "{found:#?}");
}

#[test]
fn a_border_off_the_board_is_reported_once() {
    let mut document = plan(Unit::Inch, "8x10");
    mat(&mut document).board_by = BoardBy::Borders(sides("2,2,2,-1"));
    mat(&mut document).exhibition = true;
    assert_eq!(summary(&document, "narrow-border"), "");
    assert_eq!(summary(&document, "exhibition-border"), "");
    mat(&mut document).openings[0].window_by = WindowBy::Reveal(sides("-5"));
    assert_eq!(findings(&document).iter().filter(|f| f.severity == Severity::Fault).count(), 1);
}

/// Plans with something amiss: held by too little or not at all, with limits, a backing of
/// its own, the exhibition rule, a picture not quite of the image's proportions.
fn faulty() -> impl Strategy<Value = Document> {
    let near = |figures: &'static [i64]| prop::sample::select(figures).prop_map(Length::um);
    let overlap =
        move || near(&[-6_000, -500, 0, 501, 1_999, 2_000, 2_999, 3_000, 3_175, 9_000]);
    let overlaps = (overlap(), overlap(), overlap(), overlap())
        .prop_map(|(top, right, bottom, left)| Sides::new(top, right, bottom, left));
    let limits =
        (prop::option::of(near(&[0, 4_000])), prop::option::of(near(&[10_000, 40_000])))
            .prop_map(|(hidden_image, least_border)| Limits { least_border, hidden_image });
    let backing = prop::option::of((0..4_i64, 0..4_i64));
    let rest = (any::<bool>(), any::<bool>(), 950_u32..1_050);
    (plans(), overlaps, limits, backing, rest).prop_map(
        |(mut document, overlaps, limits, backing, (whole, exhibition, width_px))| {
            let outer = laid(&document).exact.outer;
            let work = &mut document.works[0];
            let image = work.image.size;
            let height = image.height.units() * 1_000 / image.width.units();
            work.picture.width_px = width_px;
            work.picture.height_px = u32::try_from(height).unwrap();
            if whole {
                work.sheet = image;
                work.image = Rect::at_origin(image);
            }
            let mat = &mut document.variants[0].mat;
            if whole {
                mat.openings[0].window_by = WindowBy::Reveal(overlaps.map(|overlap| -overlap));
            }
            mat.limits = limits;
            mat.exhibition = exhibition;
            mat.backing.size = backing.map(|(width, height)| {
                let more = |by: i64| Length::mm(5) * (by - 1);
                Size::new(outer.width + more(width), outer.height + more(height))
            });
            document
        },
    )
}

fn laid(document: &Document) -> Layout {
    crate::layout::layout(document, &document.variants[0].mat)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(5_000))]

    #[test]
    fn nonsense_is_judged(document in nonsense()) {
        for finding in findings(&document) {
            prop_assert!(!finding.message.is_empty());
        }
    }

    #[test]
    fn nonsense_in_the_assembly_is_judged(
        mut document in nonsense(),
        lengths in prop::collection::vec(-Length::MOST.units()..Length::MOST.units(), 16),
        kind in prop::sample::select(HingeKind::ALL),
        automatic in any::<bool>(),
        numbers in prop::collection::vec(any::<u32>(), 6),
    ) {
        let length = |n: usize| Length::from_units(lengths[n]);
        let size = |n: usize| Size::new(length(n).abs(), length(n + 1).abs());
        let assembly = &mut document.variants[0].mat.assembly;
        assembly.paper = Some(Paper {
            mass_gsm: Some(numbers[0]),
            thickness: Some(length(0)),
            along: Rate::read("1"),
            ..Paper::default()
        });
        assembly.hangs_at = Humidity::read("0").zip(Humidity::read("100"))
            .map(|(damp, dry)| Hangs { dry, damp });
        let hinging = &mut assembly.hinging;
        if !automatic {
            hinging.kind = Some(kind);
            hinging.at = [1, 2, 3]
                .map(|n| HingeAt { x: length(n), locates: n == 2 })
                .to_vec();
            hinging.width = Some(length(4));
            hinging.hold = Some(length(5));
            hinging.gap = Some(length(6));
            hinging.longer = Some(length(7));
        }
        hinging.tissue = Some(Tissue {
            tensile_n_per_m: Some(numbers[1]),
            shear_pa: Some(numbers[2]),
            ..Tissue::default()
        });
        assembly.corners_glued = Some(length(8));
        assembly.package.size = Some(FrameSize::Rabbet(size(9)));
        assembly.package.allowance = Some(length(11));
        assembly.package.spacer = Some(length(12));
        assembly.package.mass_g = automatic.then_some(numbers[3]);
        assembly.hanging.rings_apart = Some(length(13));
        assembly.hanging.rise = Some(length(14));
        assembly.hanging.rings_below = Some(length(15));
        assembly.hanging.wire_rated_g = Some(numbers[4]);
        assembly.hanging.hook_rated_g = Some(numbers[5]);
        for finding in findings(&document) {
            prop_assert!(!finding.message.is_empty());
        }
    }

    #[test]
    fn every_way_out_leads_out(document in plans()) {
        prop_assert_eq!(bad_remedies(&document), [""; 0]);
    }

    #[test]
    fn every_way_out_of_a_partly_cut_plan_leads_out(
        mut document in plans(), wide in -3_000_i64..3_000, right in -3_000_i64..3_000,
        board in -1_i64..2,
    ) {
        let top = laid(&document).bench.openings[0].layers[0].clone();
        let measured = Measured {
            outer: None,
            layer: Some(top.layer),
            sight: Size::new(top.sight.bounds.size.width + Length::um(wide),
                top.sight.bounds.size.height),
            left: top.borders.left + Length::um(right),
            top: top.borders.top,
            seen: Seen::Front,
        };
        let (id, opening) = (document.variants[0].id, document.variants[0].mat.openings[0].id);
        let command = as_cut(&document, id, opening, measured).unwrap();
        prop_assert_eq!(apply(&mut document, &command), Ok(()));
        if let BoardBy::Outer { size, .. } = &mut document.variants[0].mat.board_by {
            size.width += Length::mm(10) * board;
        }
        prop_assert_eq!(bad_remedies(&document), [""; 0]);
    }

    #[test]
    fn every_way_out_of_a_faulty_plan_leads_out(document in faulty()) {
        prop_assert_eq!(bad_remedies(&document), [""; 0]);
    }
}
