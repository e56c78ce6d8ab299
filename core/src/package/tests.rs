use super::*;
use crate::layout::layout;
use crate::material::Board;
use crate::sample::{inches, plain, reference, sides, size};
use crate::spec::{BoardBy, Placement};

fn packed(document: &Document) -> Packed {
    let mat = &document.variants[0].mat;
    package(document, mat, &layout(document, mat))
}

fn framed_plan(outer: &str) -> Document {
    let mut document = plain("8x10");
    let mat = &mut document.variants[0].mat;
    mat.board_by = BoardBy::Outer { size: size(outer), placement: Placement::Centred };
    mat.assembly.package.frame = Tables::shipped().frame("gallery-wood").cloned();
    document
}

/// Acrylic, one mat, and one board behind; nothing else.
#[track_caller]
fn depth(glazing: &str, mat: &str, assembly: &str, wanted: &str) {
    let mut document = framed_plan("16x20");
    let plan = &mut document.variants[0].mat;
    let board = |text: &str| Board { thickness: inches(text), ..plan_board() };
    plan.layers[0].board = board(mat);
    plan.backing.board = board(assembly);
    plan.assembly.package.filler = Tables::shipped().filler("none").cloned();
    plan.assembly.package.glazing = Some(Glazing {
        thickness: inches(glazing),
        ..Tables::shipped().glazing("acrylic-3").cloned().unwrap()
    });
    let packed = packed(&document);
    assert_eq!(packed.depth, inches(wanted));
    assert_eq!(packed.rabbet, inches(wanted) + inches("1/8"));
}

fn plan_board() -> Board {
    plain("8x10").variants[0].mat.layers[0].board.clone()
}

/// Sources: framing shops' guides for works on paper: 1/8 + 1/16 + 3/16 = 3/8 in; 3/32
/// acrylic + 1/16 mat + 1/8 mount = 9/32 in; 1/8 + 1/16 + 1/16 = 1/4 in. Room: from memory.
#[test]
fn depths() {
    depth("1/8", "1/16", "3/16", "3/8");
    depth("3/32", "1/16", "1/8", "9/32");
    depth("1/8", "1/16", "1/16", "1/4");
}

/// Source: EN 572-1: 2.5 kg/m² for each millimetre of float glass.
#[test]
fn glass() {
    let mut document = framed_plan("1000x1000mm");
    for (name, grams) in [("glass-2", 5000.0), ("glass-3", 7500.0), ("acrylic-2", 2380.0)] {
        document.variants[0].mat.assembly.package.glazing =
            Tables::shipped().glazing(name).cloned();
        let packed = packed(&document);
        assert_eq!(packed.layers[0].part, Part::Glazing);
        assert!((packed.layers[0].mass_g - grams).abs() < 1e-6, "{name}");
        let sum: f64 = packed.layers.iter().map(|layer| layer.mass_g).sum();
        assert!((packed.mass_g - sum).abs() < 1e-9 && !packed.weighed);
    }
    document.variants[0].mat.assembly.package.mass_g = Some(1234);
    assert!((packed(&document).mass_g - 1234.0).abs() < 1e-9);
}

/// The tension for a weight in newtons, at an angle from the horizontal in degrees.
fn tension(weight_n: f64, angle_deg: f64) -> f64 {
    let rise = Length::mm(1000);
    let run = rise.to_mm() / angle_deg.to_radians().tan();
    let wire =
        wire(weight_n / GRAVITY * 1000.0, Length::from_mm_nearest(2.0 * run), rise, Hooks::One);
    let wire = wire.unwrap();
    assert!((wire.angle_deg - angle_deg).abs() < 1e-4, "{wire:?}");
    wire.tension_n
}

/// Sources: physics textbook problems: T = 0.75 W at 48.2° from the vertical; two sides of
/// 3.5 N at 45° carry 4.95 N (the answer printed with that problem, 4.9 N, is a misprint);
/// at 10°, T = 2.88 W; 40 N on wire fixed 40 cm apart and raised 3 cm:
/// T = 20 N / sin(arctan(3 / 20)).
#[test]
fn published_tensions() {
    assert!((tension(1.0, 90.0 - 48.2) - 0.75).abs() < 5e-4);
    assert!((tension(4.95, 45.0) - 3.5).abs() < 1e-3);
    assert!((tension(1.0, 10.0) - 2.88).abs() < 5e-3);
    let grams = 40.0 / GRAVITY * 1000.0;
    let wire = wire(grams, Length::mm(400), Length::mm(30), Hooks::One).unwrap();
    assert!((wire.tension_n - 20.0 / (0.15_f64).atan().sin()).abs() < 1e-6);
}

/// Source: a chart on a framers' forum, force on each screw eye of a frame of 10 lb, in
/// whole pounds: half the weight by the sine of the angle.
#[test]
fn a_framers_chart() {
    for (angle, pounds) in [
        (60.0, 6.0),
        (45.0, 7.0),
        (30.0, 10.0),
        (15.0, 19.0),
        (10.0, 29.0),
        (5.0, 57.0),
        (2.0, 143.0),
    ] {
        let found = tension(10.0, angle);
        assert!((found - pounds).abs() <= 0.5, "{angle}°: {found} against {pounds}");
    }
}

/// Source: derived (D): the level stretch between two hooks is no part of the slope.
#[test]
fn two_hooks() {
    let one = wire(4000.0, Length::mm(600), Length::mm(100), Hooks::One).unwrap();
    let two = wire(4000.0, Length::mm(600), Length::mm(100), Hooks::Two(Length::mm(400)));
    let two = two.unwrap();
    assert!((two.angle_deg - 45.0).abs() < 1e-9);
    assert!((one.angle_deg - (1.0_f64 / 3.0).atan().to_degrees()).abs() < 1e-9);
    let weight = 4.0 * GRAVITY;
    assert!((two.tension_n - weight / 2.0_f64.sqrt()).abs() < 1e-9);
    assert!(wire(4000.0, Length::mm(600), Length::ZERO, Hooks::One).is_none());
    let straight = wire(4000.0, Length::mm(400), Length::mm(100), Hooks::Two(Length::mm(400)));
    assert!((straight.unwrap().tension_n - weight / 2.0).abs() < 1e-9);
    assert!(wire(1.0, Length::mm(300), Length::MM, Hooks::Two(Length::mm(400))).is_none());
}

/// Source: derived (D): a frame of 13 lb, 33 in high, its rings 24 in apart and 11 below its top, the wire 25
/// long when taut, its middle at 60. Two hooks 12 apart: half-run 6, slope 6 1/2, rise 2 1/2:
/// 22.62 degrees, 16.9 lb, 6.5 lb on each hook, hooks at 68. One hook: rise 3 1/2 (12 across,
/// 12 1/2 of wire): 23.2 lb, the hook at 69.
#[test]
fn thirteen_pounds_in_pounds() {
    let document = |hooks, rise: &str| {
        let mut document = framed_plan("26x32");
        let assembly = &mut document.variants[0].mat.assembly;
        assembly.package.mass_g = Some(5897);
        assembly.hanging = Hanging {
            rings_apart: Some(inches("24")),
            rise: Some(inches(rise)),
            rings_below: Some(inches("11")),
            frame_size: Some(size("27x33")),
            hooks,
            ..Hanging::default()
        };
        document
    };
    let two = document(Hooks::Two(inches("12")), "2 1/2");
    let (hung, pounds) = (packed(&two).hung, two.weights());
    assert!((hung.wire.unwrap().angle_deg - 22.62).abs() < 5e-3);
    assert_eq!(pounds.force(hung.wire.unwrap().tension_n), "16.9 lb");
    assert_eq!(pounds.force(hung.hook_n), "6.5 lb");
    assert_eq!(pounds.mass(packed(&two).mass_g), "13 lb");
    assert_eq!(hung.hook_height, Some(inches("68")));
    let one = document(Hooks::One, "3 1/2");
    assert_eq!(pounds.force(packed(&one).hung.wire.unwrap().tension_n), "23.2 lb");
    assert_eq!(packed(&one).hung.hook_height, Some(inches("69")));
}

/// Source: a gallery's how-to: centre 57 in, frame 20 in high, 2 in from its top to the
/// pulled-up wire: 65 in. Rings 5 in down and a wire pulled up 3 in give the same.
#[test]
fn hook_heights() {
    assert_eq!(hook_height(inches("57"), inches("20"), inches("2")), inches("65"));
    let mut document = plain("8x10");
    document.variants[0].mat.assembly.hanging = Hanging {
        rings_below: Some(inches("5")),
        rise: Some(inches("3")),
        frame_size: Some(size("16x20")),
        centre: Some(inches("57")),
        ..Hanging::default()
    };
    assert_eq!(packed(&document).hung.hook_height, Some(inches("65")));
}

/// Source: derived (D): a 1/4 in lip hides 1/4 in below and, with 1/8 in of allowance, 1/8
/// in above; sideways it may lie anywhere between.
#[test]
fn the_lip() {
    let document = framed_plan("16x20");
    let packed = packed(&document);
    let framed = packed.framed.unwrap();
    assert_eq!(framed.rabbet, size("16 1/8x20 1/8"));
    assert_eq!(framed.hidden, sides("1/8,3/16,1/4,3/16"));
    assert_eq!(framed.hidden_sideways, (inches("1/8"), inches("1/4")));
    // Borders 4 1/8 and 5 1/8, less the bevel's face: of the sight edge.
    assert_eq!(packed.visible_border, sides("5,3 15/16,4 7/8,3 15/16"));
}

#[test]
fn rabbet_and_contents_are_never_confused() {
    let rabbet = FrameSize::Rabbet(size("16 1/8x20 1/8"));
    let contents = FrameSize::Contents(size("16x20"));
    assert_eq!(contents_of(rabbet, usual_allowance(Unit::Inch)), size("16x20"));
    assert_eq!(contents_of(contents, usual_allowance(Unit::Inch)), size("16x20"));
    assert_eq!(rabbet_of(rabbet, usual_allowance(Unit::Inch)), size("16 1/8x20 1/8"));
    assert_eq!(rabbet_of(contents, usual_allowance(Unit::Inch)), size("16 1/8x20 1/8"));
}

/// Source: common practice: a mat that is bagged, not framed, is a finished piece.
#[test]
fn a_bagged_piece_has_no_glazing() {
    let packed = packed(&reference());
    assert!(packed.framed.is_none());
    assert!(packed.layers.iter().all(|layer| layer.part != Part::Glazing));
    assert_eq!(packed.depth, inches(".180"));
    assert_eq!(packed.bag, size("20 1/4x26 1/4"));
    assert_eq!(packed.visible_border, sides("4 1/2,4 5/16,5 1/2,3 13/16"));
}

/// Source: derived (D): the larger of mat and backing on each axis goes in, 1/4 in larger each
/// way the bag; of a lip of 1/4 in, the backing beyond the mat takes its part first.
#[test]
fn a_larger_backing_counts() {
    let mut document = framed_plan("16x16");
    document.variants[0].mat.backing.size = Some(size("18x15"));
    let packed = packed(&document);
    assert_eq!(packed.contents, size("18x16"));
    assert_eq!(packed.bag, size("18 1/4x16 1/4"));
    assert_eq!(packed.beyond, sides("0,1,0,1"));
    let framed = packed.framed.unwrap();
    assert_eq!(framed.rabbet, size("18 1/8x16 1/8"));
    assert_eq!(framed.hidden, sides("1/8,0,1/4,0"));
}

/// A frame measured from outside is so large, for the package and for its hooks.
#[test]
fn one_outside() {
    let mut document = framed_plan("24x32");
    document.variants[0].mat.assembly.hanging.frame_size = Some(size("27x35"));
    assert_eq!(packed(&document).framed.unwrap().outside, size("27x35"));
}

/// Source: derived (D): an undermat's blank is 1/4 in smaller on every side, 19 1/2 × 25 1/2 in on the
/// reference piece. Less its window of 11 1/2 × 15 5/8 in that is 317.5625 in², where the top
/// mat, 20 × 26 less 11 7/8 × 16 in, has 330 in². With two windows it is as large as the mat.
#[test]
fn a_undermat_weighs_as_much_as_its_blank() {
    let faces = |document: &Document| {
        let packed = packed(document);
        let boards = packed.layers.iter().filter(|layer| layer.part == Part::Mat);
        let grams: Vec<f64> = boards.map(|layer| layer.mass_g).collect();
        let [top, undermat] = grams.as_slice() else { panic!("{grams:?}") };
        undermat / top
    };
    let mut document = reference();
    assert!((faces(&document) - 317.5625 / 330.0).abs() < 1e-9, "{}", faces(&document));
    let mat = &mut document.variants[0].mat;
    let first = mat.openings[0].clone();
    let place = Point::new(inches("15"), Length::ZERO);
    mat.openings.push(Opening { id: OpeningId(2), place, ..first });
    // The borders stay: the mat is 15 in wider.
    let (whole, top, undermat) = (35.0 * 26.0, 2.0 * 190.0, 2.0 * 179.6875);
    let wanted = (whole - undermat) / (whole - top);
    assert!((faces(&document) - wanted).abs() < 1e-9, "{}", faces(&document));
}

use crate::geometry::Point;
use crate::spec::{Opening, OpeningId};
