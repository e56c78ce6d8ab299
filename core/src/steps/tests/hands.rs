//! What each sort of plan asks of the hands.

use super::{of, text_of};
use crate::geometry::{Side, Sides};
use crate::length::Length;
use crate::material::Tables;
use crate::sample::{inches, plain, reference, sides, size};
use crate::spec::{
    Angle, Back, Bevel, BoardBy, Document, Front, HingeKind, Inscribed, Lettering, Placement,
    WindowBy,
};

/// An 8 × 10 in sheet on a board of 16 × 20 in, held by 1/8 in.
fn held() -> Document {
    let mut document = plain("8x10");
    let mat = &mut document.variants[0].mat;
    mat.board_by = BoardBy::Outer { size: size("16x20"), placement: Placement::Centred };
    mat.openings[0].window_by = WindowBy::Reveal(Sides::all(-inches("1/8")));
    document
}

/// The same, hung upon an edge, before a backing of that size.
fn hinged(edge: Side, backing: Option<&str>) -> Document {
    let mut document = held();
    let mat = &mut document.variants[0].mat;
    mat.assembly.mat_hinge.edge = Some(edge);
    mat.backing.size = backing.map(size);
    document
}

#[track_caller]
fn joint(document: &Document, parts: &[&str]) {
    let steps = of(document);
    let step = steps.iter().find(|step| step.id == "hinge-mat").unwrap();
    assert_eq!(step.parts, parts);
}

const TAPE: &str = "Tape over the joint: cloth tape 1 1/2 in wide, 20 in long, half of its width \
                    on the mat's back, half on the backing's face; rub it down.";
const FLUSH: &str = "Fold the mat over onto the backing, face up: it lies flush with the backing on every side.";

/// Source: Library of Congress, Matting and Hinging Works of Art on Paper: the mat lies face
/// down beside the backing, which lies face up, and the tape closes inside the fold.
#[test]
fn the_mat_lies_face_down_beside_the_backing() {
    joint(
        &hinged(Side::Left, None),
        &[
            "Backing face up, its head away from you;",
            "mat face down to the left of it, its head away from you too;",
            "the mat's left edge (as it hangs) against the backing's left edge, 1/32 in apart.",
            TAPE,
            FLUSH,
        ],
    );
    joint(
        &hinged(Side::Right, Some("16x20")),
        &[
            "Backing face up, its head away from you;",
            "mat face down to the right of it, its head away from you too;",
            "the mat's right edge (as it hangs) against the backing's right edge, 1/32 in apart.",
            TAPE,
            FLUSH,
        ],
    );
    let across = TAPE.replace("20 in", "16 in");
    for (edge, mat, line) in [
        (
            Side::Top,
            "mat face down beyond it, its head towards you;",
            "the mat's top edge against the backing's top edge, 1/32 in apart.",
        ),
        (
            Side::Bottom,
            "mat face down on your side of it, its head towards you;",
            "the mat's bottom edge against the backing's bottom edge, 1/32 in apart.",
        ),
    ] {
        let backing = "Backing face up, its head away from you;";
        joint(&hinged(edge, None), &[backing, mat, line, &across, FLUSH]);
    }
}

/// Source: derived (D): edge against edge a smaller mat folds out to the backing's edge, so it
/// is turned over the line where its edge is to lie.
#[test]
fn a_smaller_mat_is_hinged_at_its_own_edge() {
    let fold = "Fold the mat over onto the backing, face up: it lies within the backing, 1/8 in \
                on every side.";
    joint(
        &hinged(Side::Left, Some("16 1/4 x 20 1/4")),
        &[
            "Backing face up, its head away from you;",
            "the mat face up on it, so that it lies within the backing, 1/8 in on every side;",
            "draw a fine pencil line on the backing along the mat's left edge;",
            "turn the mat over that edge like a page: it lies face down, its left edge 1/32 in \
             from the line, its far side held level by a piece of board as thick as the backing.",
            TAPE,
            fold,
        ],
    );
    // Undermats hold the top mat's edge off the backing; the tape has to reach it.
    let text = text_of(&reference(), "hinge-mat");
    assert!(
        text.contains("edge, 3/32 in apart (1/32 in and the undermats' 1/16 in)."),
        "{text}"
    );
    // Hinged where both edges meet, it is within elsewhere.
    let text = text_of(&hinged(Side::Top, Some("17x20")), "hinge-mat");
    assert!(text.contains("mat face down beyond it"), "{text}");
    assert!(
        text.ends_with(
            "it lies flush at top and bottom, and within the backing right 1/2 in, left 1/2 in."
        ),
        "{text}"
    );
    // A backing that is too small is cut anew, in so many words.
    let text = text_of(&hinged(Side::Left, Some("15x19 3/4")), "hinge-mat");
    assert!(
        text.ends_with(
            "as planned the mat comes out up to 1/2 in beyond the backing; cut a backing of at \
             least 16 in × 20 in first."
        ),
        "{text}"
    );
    let text = text_of(&hinged(Side::Left, Some("17x21")), "backing");
    assert!(text.starts_with("Backing 17 in × 21 in ("), "{text}");
    let text = text_of(&hinged(Side::Left, None), "backing");
    assert!(text.starts_with("Backing 16 in × 20 in, as large as the mat ("), "{text}");
}

/// The overlap is under the mat: what one measures is what shows.
#[test]
fn the_sheet_is_placed_by_what_one_sees() {
    let text = text_of(&reference(), "place");
    assert!(
        text.contains(
            "its left edge 3 1/4 in from the backing's left edge, its top edge 3 7/16 in"
        ) && text.ends_with(
            "between picture and window, paper shows: top 1/4 in, right 1/4 in, bottom 3/8 \
                 in, left 1/4 in; the mat covers the sheet by: top 1 1/4 in, right \
                 3/4 in, bottom 2 1/8 in, left 3/4 in."
        ),
        "{text}"
    );
    // A backing that is larger: measured from its own edges, for the mat lies open.
    let mut larger = reference();
    larger.variants[0].mat.backing.size = Some(size("21x28"));
    let text = text_of(&larger, "place");
    assert!(text.contains("its left edge 3 3/4 in from the backing's left edge"), "{text}");
    assert!(text.contains("its top edge 4 7/16 in from the backing's top edge"), "{text}");
    let text = text_of(&held(), "place");
    assert!(
        text.ends_with(
            "the mat covers the picture by 1/8 in on every side; the mat covers the \
             sheet by 1/8 in on every side."
        ),
        "{text}"
    );
    let mut edge = reference();
    edge.variants[0].mat.openings[0].window_by = WindowBy::Reveal(Sides::all(Length::ZERO));
    let text = text_of(&edge, "place");
    assert!(text.contains("the window meets the picture's edge all round;"), "{text}");
    let text = text_of(&floated(None), "place");
    assert!(
        text.ends_with("round the sheet, 1/2 in of the backing shows on every side."),
        "{text}"
    );
    // Its foot alone is free.
    let mut mixed = held();
    mixed.variants[0].mat.openings[0].window_by = WindowBy::Reveal(sides("-1/8,-1/8,1/4,-1/8"));
    let text = text_of(&mixed, "place");
    assert!(
        text.contains(
            "round the sheet, the backing shows: bottom 1/4 in; the mat covers the sheet"
        ),
        "{text}"
    );
}

/// A sheet with its edges free.
fn floated(kind: Option<HingeKind>) -> Document {
    let mut document = held();
    let mat = &mut document.variants[0].mat;
    mat.openings[0].window_by = WindowBy::Reveal(Sides::all(inches("1/2")));
    mat.assembly.hinging.kind = kind;
    document
}

/// From the sheet's place to the closed mat.
#[track_caller]
fn holding(document: &Document, wanted: &[&str]) {
    let ids: Vec<_> = of(document).into_iter().map(|step| step.id).collect();
    let from = ids.iter().position(|id| id == "place").unwrap();
    let to = ids.iter().position(|id| id == "close").unwrap();
    assert_eq!(ids[from + 1..to], *wanted);
}

/// Source: Library of Congress; common practice: a tab is slipped under a sheet that lies; a
/// folded one, and one through the board, are put on while it is turned over.
#[test]
fn each_kind_of_hold_has_its_own_steps() {
    let held_by = |kind| {
        let mut document = held();
        document.variants[0].mat.assembly.hinging.kind = Some(kind);
        document
    };
    holding(&held_by(HingeKind::T), &["weight", "hinges", "yielding", "dry"]);
    holding(&held_by(HingeKind::Corners), &["weight", "pockets"]);
    holding(&held_by(HingeKind::Strips), &["weight", "strips"]);
    holding(&floated(None), &["stops", "hinges-v", "dry"]);
    holding(&floated(Some(HingeKind::PassThrough)), &["stops", "hinges-through", "dry"]);
    let text = text_of(&held(), "hinges");
    assert!(text.contains("First the one at 1 in: a tab "), "{text}");
    assert!(text.contains("slip 3/16 in of the tab under it, sticky side up"), "{text}");
    assert!(text.contains(": a tab 7/8 in long."), "{text}");
    let text = text_of(&held(), "yielding");
    assert!(text.contains("The other, at 7 in, is 1/2 in longer"), "{text}");
    let text = text_of(&floated(Some(HingeKind::PassThrough)), "hinges-through");
    assert!(
        text.contains("slits through the backing, 1 5/8 in long, along the strip"),
        "{text}"
    );
}

/// Where no room is left above the sheet nothing yields, and no step says that it does.
#[test]
fn hinges_of_one_length_are_all_put_on_alike() {
    let mut document = held();
    document.variants[0].mat.assembly.hinging.longer = Some(Length::ZERO);
    holding(&document, &["weight", "hinges", "dry"]);
    assert!(text_of(&document, "hinges").contains("For each: a tab "));
}

/// Tissue and paste dry, a tape is rubbed down; corners have neither.
#[test]
fn what_sticks_says_how() {
    let with = |id: &str| {
        let mut document = held();
        let tissue = Tables::shipped().tissues.iter().find(|tissue| tissue.id == id).cloned();
        document.variants[0].mat.assembly.hinging.tissue = tissue;
        document
    };
    let pasted = with("kozo-light");
    assert!(text_of(&pasted, "hinges").ends_with("between the two, leave the tab dry."));
    assert_eq!(
        text_of(&pasted, "dry"),
        "A piece of non-woven polyester over and under each tab, then a blotter and a weight, \
         until it is dry."
    );
    let tape = with("ps-tissue");
    assert!(
        text_of(&tape, "hinges")
            .ends_with("between the two, cover its bare adhesive with a slip of tissue.")
    );
    assert_eq!(text_of(&tape, "dry"), "Rub each hinge down through clean tissue.");
}

/// What is written is written before the sheet is under the mat, on the mat once it is closed,
/// and nothing has no step.
#[test]
fn one_signs_where_the_plan_says() {
    let ids = |front, back: &[&str]| -> Vec<String> {
        let mut document = reference();
        let back = back.iter().map(|line| (*line).to_owned()).collect();
        let lettering = Lettering { front, back, behind: Back::Margin, ..Lettering::default() };
        document.inscribed = Some(Inscribed { lettering, ..Inscribed::default() });
        let steps = of(&document).into_iter().map(|step| step.id);
        steps.filter(|id| id.contains("sign") || id == "inscribe").collect()
    };
    assert_eq!(ids(Front::Mat, &["Weir"]), ["inscribe", "sign"]);
    assert_eq!(ids(Front::Margin, &["Weir"]), ["inscribe", "sign-margin"]);
    assert_eq!(ids(Front::Nothing, &["Weir"]), ["inscribe"]);
    assert_eq!(ids(Front::Nothing, &[]), [""; 0]);
}

/// What one lays into a frame, and where its rings and hooks sit.
#[test]
fn a_frame_is_filled_from_the_front() {
    let mut document = held();
    let assembly = &mut document.variants[0].mat.assembly;
    assembly.package.frame = Tables::shipped().frame("gallery-wood").cloned();
    assembly.package.spacer = Some(Length::mm(6));
    assembly.hanging.rings_apart = Some(inches("12"));
    assembly.hanging.rings_below = Some(inches("6"));
    assembly.hanging.hooks = crate::spec::Hooks::Two(inches("8"));
    let text = text_of(&document, "package");
    let stack =
        "then the closed mat, then Acrylic, 1/8 in (3.2 mm), its spacers towards the mat";
    assert!(text.contains(stack), "{text}");
    let text = text_of(&document, "rings");
    assert!(
        text.contains("Rings at the frame's sides, 6 in below its top, 12 in apart."),
        "{text}"
    );
    let text = text_of(&document, "hang");
    assert!(text.contains("2 hooks, 8 in apart"), "{text}");
    let ids: Vec<String> = of(&document).into_iter().map(|step| step.id).collect();
    let framing = [
        "glaze",
        "spacers",
        "package",
        "look",
        "fit",
        "dust-cover",
        "rings",
        "wire",
        "label",
        "bumpers",
        "hang",
    ];
    assert!(ids.ends_with(&framing.map(str::to_owned)), "{ids:?}");
}

/// No sort of plan leaves a figure empty or a sign doubled.
#[test]
fn every_sort_of_plan_reads_whole() {
    let kinds = [
        HingeKind::T,
        HingeKind::V,
        HingeKind::PassThrough,
        HingeKind::Corners,
        HingeKind::Strips,
    ];
    for kind in kinds {
        for edge in [Side::Top, Side::Left] {
            for document in [hinged(edge, None), floated(None), reference()] {
                let mut document = document;
                let assembly = &mut document.variants[0].mat.assembly;
                assembly.hinging.kind = Some(kind);
                assembly.mat_hinge.edge = Some(edge);
                assembly.corners_glued = Some(Length::mm(10));
                for step in of(&document) {
                    let text = step.text();
                    for wrong in ["  ", ";.", ".;", " ,", "..", "()", " .", ": ;", ":."] {
                        assert!(!text.contains(wrong), "{wrong:?} in {text:?}");
                    }
                    assert!(!text.is_empty(), "{}", step.id);
                }
            }
        }
    }
}

/// Source: common practice: a reverse bevel is cut from the face, left and right as on the front;
/// an undermat's face is out of reach once it is stuck, so it is cut loose.
#[test]
fn a_reverse_bevel_is_cut_from_the_face() {
    let mut document = reference();
    let plain = text_of(&document, "undermats");
    assert!(
        plain.contains("put the drop-out of the layer above back into its window"),
        "{plain}"
    );
    for layer in &mut document.variants[0].mat.layers {
        layer.bevel = Bevel::Reverse(Angle::USUAL);
    }
    let text = text_of(&document, "cut");
    assert!(
        text.contains(", face up in the cutter")
            && text.contains("reverse bevel 45°, the blade leaning away from the window;")
            && text.ends_with(
                "stops from the front, top 4 1/2 in, right 4 5/16 in, bottom 5 1/2 in, left \
                 3 13/16 in."
            ),
        "{text}"
    );
    let text = text_of(&document, "undermats");
    assert!(
        text.starts_with(
            "An undermat with a reverse bevel cannot be cut from its face once it is"
        ) && text.contains(
            "stops from the front and from its own edge: top 4 7/16 in, right 4 1/4 in, \
                 bottom 5 7/16 in, left 3 3/4 in; stuck on, it lies 1/4 in inside"
        ) && !text.contains("then cut its window"),
        "{text}"
    );
}

/// Source: common practice: a tab through the backing reaches 1 in up its back, under a
/// cross-piece, and dries before the sheet is turned.
#[test]
fn a_tab_through_the_backing_is_long_enough() {
    let mut document = floated(Some(HingeKind::PassThrough));
    let tissue = Tables::shipped().tissues.iter().find(|one| one.id == "kozo-light").cloned();
    document.variants[0].mat.assembly.hinging.tissue = tissue;
    let text = text_of(&document, "hinges-through");
    // 3/16 + .060 + 1 in, torn at 1/8 in.
    assert!(text.contains("1 1/2 in wide and 1 1/4 in long"), "{text}");
    assert!(text.contains("Paste no more than the 3/16 in"), "{text}");
    assert!(text.contains("until it is dry. Only then turn it."), "{text}");
    assert!(text.contains("on the back, a cross-piece 2 1/2 in × 1 1/2 in."), "{text}");
    let text = text_of(&document, "dry");
    assert!(text.contains("blotter") && text.contains("back onto the bench"), "{text}");
}

/// A tape is no moist hinge, and a plan with one hook is not told that it has two.
#[test]
fn cautions_are_of_this_plan() {
    let mut document = held();
    let assembly = &mut document.variants[0].mat.assembly;
    assembly.hinging.tissue =
        Tables::shipped().tissues.iter().find(|one| one.id == "ps-tissue").cloned();
    assembly.package.frame = Tables::shipped().frame("gallery-wood").cloned();
    let caution = |document: &Document, id: &str| {
        of(document).into_iter().find(|step| step.id == id).unwrap().cautions.join(" ")
    };
    let words = caution(&document, "hinges");
    assert!(words.contains("Pressure-sensitive") && !words.contains("Moist"), "{words}");
    let words = caution(&document, "hang");
    assert!(words.starts_with("Use two hooks rather than one"), "{words}");
    document.variants[0].mat.assembly.hanging.hooks = crate::spec::Hooks::Two(inches("8"));
    let words = caution(&document, "hang");
    assert!(words.starts_with("Use hardware rated"), "{words}");
}

/// What is checked by eye is on a ruler, and nothing is 0 in from an edge; a chosen bag is named.
#[test]
fn what_is_read_can_be_measured() {
    let mut document = held();
    let mat = &mut document.variants[0].mat;
    mat.board_by = BoardBy::Outer { size: size("8x10"), placement: Placement::Centred };
    let bag = Tables::shipped().bags.iter().find(|bag| bag.id == "8x10").cloned();
    mat.assembly.package.bag = bag;
    let text = text_of(&document, "place");
    assert!(text.contains("its left edge flush with the backing's left edge"), "{text}");
    assert!(!text.contains(" 0 in from"), "{text}");
    let text = text_of(&document, "bag");
    assert!(text.contains("A bag “8 × 10 in”, 8 1/4 in × 10 1/4 in inside"), "{text}");
    // A window that came out 1/7 in wider leaves 3/56 in at each side.
    let mut odd = held();
    let top = odd.variants[0].mat.layers[0].id;
    super::cut(&mut odd, top, ".1429");
    let text = text_of(&odd, "place");
    assert!(text.contains("right 3/64 in, bottom 1/8 in, left 3/64 in"), "{text}");
}
