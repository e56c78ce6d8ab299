//! Worked examples of the trade, exact in fractions, through the commands.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test fails by panicking")]

use serde_json::Value;
use sightedge_core::geometry::Size;
use sightedge_core::length::{Length, Style, Unit};
use sightedge_core::material::Tables;
use sightedge_tests::commands::{Bench, four, size, texts, wrong_texts};
use sightedge_tests::random::Random;

fn bench(name: &str) -> Bench {
    Bench::new(env!("CARGO_TARGET_TMPDIR"), &format!("worked-{name}")).unwrap()
}

#[track_caller]
fn figures(bench: &Bench, options: &str) -> Value {
    let figures =
        bench.figures_of(options).unwrap_or_else(|words| panic!("{options}: {words}"));
    assert_eq!(wrong_texts(&figures), [""; 0], "{options}");
    figures
}

/// Window and borders of the innermost sight edge, in inches.
#[track_caller]
fn case(bench: &Bench, options: &str, window: &str, borders: &str) {
    let figures = figures(bench, options);
    let opening = &figures["openings"][0];
    let found = (size(&opening["sight"]), four(&opening["borders"]));
    assert_eq!(found, (window.to_owned(), borders.to_owned()), "{options}");
}

/// Source: a workshop tutorial on measuring a mat (P): a 14 × 11 mat, an 8 × 10 print lying.
#[test]
fn a_lying_print_centred() {
    let bench = bench("lying");
    let wanted = ("9 3/4, 7 3/4", "1 5/8, 2 1/8, 1 5/8, 2 1/8");
    for options in [
        "--sheet 10x8in --outer 14x11 --overlap 1/8",
        "--sheet 10x8in --outer 14x11",
        "--sheet 10x8in --outer 14x11 --centred",
        "--sheet 10x8in --outer 14x11 --reveal -1/8",
        "--sheet 10x8in --border \"1 5/8,2 1/8,1 5/8,2 1/8\"",
    ] {
        case(&bench, options, wanted.0, wanted.1);
    }
}

/// Source: photographic-society and artists' guides (P): bottom = top + extra, or bottom : top
/// about 6 : 5. The figures follow from 14 × 18 less 7 3/4 × 9 3/4 in (derived).
#[test]
fn a_heavier_bottom() {
    let bench = bench("bottom");
    let common = "--sheet 8x10in --outer 14x18";
    let window = "7 3/4, 9 3/4";
    let sides = "3 1/8";
    for (placement, top, bottom) in [
        ("--bottom-extra 1/2", "3 7/8", "4 3/8"),
        ("--bottom-extra 0", "4 1/8", "4 1/8"),
        ("--bottom-extra 1 1/4in", "3 1/2", "4 3/4"),
        ("--bottom-extra -1/4", "4 1/4", "4"),
        ("--bottom-ratio 6:5", "3 3/4", "4 1/2"),
        ("--bottom-ratio 1.2:1", "3 3/4", "4 1/2"),
        ("--bottom-ratio 1:1", "4 1/8", "4 1/8"),
    ] {
        let placement = placement.replace("1 1/4in", "\"1 1/4in\"");
        let borders = format!("{top}, {sides}, {bottom}, {sides}");
        case(&bench, &format!("{common} {placement}"), window, &borders);
    }
}

/// Source: derived from the drawn construction (P): an upright 8 × 10 print on 16 × 20, nothing
/// covered; then the same held by 1/8 in.
#[test]
fn the_optical_centre() {
    let bench = bench("optical");
    case(
        &bench,
        "--sheet 8x10in --outer 16x20 --overlap 0 --optical",
        "8, 10",
        "3 3/4, 4, 6 1/4, 4",
    );
    case(
        &bench,
        "--sheet 8x10in --outer 16x20 --optical",
        "7 3/4, 9 3/4",
        "3.8037, 4 1/8, 6.4463, 4 1/8",
    );
}

/// Source: the construction of photography handouts and a museum resource centre's guide (P),
/// drawn here in whole numbers: the print in the board's top left corner, both remainders
/// halved, a line from the print's lower left corner to the half-height line at the board's
/// right edge; where it meets the half-width line is the print's lower right corner.
#[test]
fn the_drawn_construction_over_many_sizes() {
    let bench = bench("construction");
    let mut random = Random::new(5);
    for _ in 0..60 {
        let mut tenths = |least, most| random.from_to(least, most);
        let (w, h) = (tenths(300, 6000), tenths(300, 6000));
        let (board_w, board_h) = (w + tenths(1, 5000), h + tenths(1, 5000));
        // In twentieths of a millimetre, so that halves are whole.
        let [w2, h2, bw2, bh2] = [w, h, board_w, board_h].map(|tenths| tenths * 2);
        let (half_width, half_height) = (w2 + (bw2 - w2) / 2, h2 + (bh2 - h2) / 2);
        // From (0, h) to (board's width, half-height): its rise at the half-width line.
        let rise = (half_height - h2) * half_width;
        // Whole units of 1/720 µm, 36 000 to a twentieth; to the nearest.
        let top = (rise * 36_000 * 2 + bw2) / (2 * bw2);
        let mm = |tenths: i64| format!("{}.{}", tenths / 10, tenths % 10);
        let options = format!(
            "--sheet {}x{}mm --outer {}x{}mm --overlap 0 --optical",
            mm(w),
            mm(h),
            mm(board_w),
            mm(board_h)
        );
        let figures = figures(&bench, &options);
        let found = figures["openings"][0]["borders"]["top_mm"].as_f64().unwrap();
        let wanted = Length::from_units(top).to_mm();
        assert!((found - wanted).abs() < 1e-9, "{options}: top {found} mm, not {wanted} mm");
    }
}

/// Source: derived: top border 2 in, offsets 1/8 and 1/4 in (P: framers' glossary).
#[test]
fn a_triple_mat() {
    let bench = bench("triple");
    let figures = figures(&bench, "--sheet 11x14in --border 2 --undermat 1/8,1/4in");
    let layers = figures["openings"][0]["layers"].as_array().unwrap();
    let tops: Vec<_> =
        layers.iter().map(|l| texts(&l["borders"], &["top"], Unit::Inch)).collect();
    assert_eq!(tops, ["2", "2 1/8", "2 3/8"]);
    // 1/4 in at .060 in and 45 degrees is .190 flat and .060 bevel.
    assert_eq!(texts(&layers[2], &["flat", "bevel"], Unit::Inch), "0.19, 0.06");
    assert_eq!(size(&figures["outer"]), "15 1/2, 18 1/2");
}

/// Source: derived from the rule of the ruler: an upright A4 sheet held by 3 mm in a 16 × 20 in
/// board, centred, on a ruler of 1/16 in.
#[test]
fn an_a4_sheet_on_sixteenths() {
    let bench = bench("ruler");
    let options = "--sheet 210x297mm --outer 16x20in --overlap 3mm --unit in --ruler 16";
    let figures = figures(&bench, options);
    let exact = &figures["openings"][0];
    let opening = &figures["bench"]["openings"][0];
    // Across: 63.748 + 128.504 + 63.748 sixteenths.
    let sixteenths =
        |value: &Value| (value.as_f64().unwrap() / 25.4 * 16_000.0).round() / 1000.0;
    let close = |found: f64, wanted: f64| assert!((found - wanted).abs() < 1e-9, "{found}");
    close(sixteenths(&exact["borders"]["left_mm"]), 63.748);
    close(sixteenths(&exact["sight"]["width_mm"]), 128.504);
    assert_eq!(size(&figures["bench"]["outer"]), "16, 20");
    assert_eq!(size(&opening["sight"]), "8, 11 3/8");
    assert_eq!(four(&opening["borders"]), "4 5/16, 4, 4 5/16, 4");
    let overlap = |side: &str| opening["overlap"][format!("{side}_mm")].as_f64().unwrap();
    for (side, wanted) in [("left", 3.4), ("right", 3.4), ("top", 4.0375), ("bottom", 4.0375)] {
        close(overlap(side), wanted);
    }
}

/// The two sets sum to the outer size and the overlap is never less than asked, on any ruler.
#[test]
fn both_sets_sum_to_the_whole() {
    let bench = bench("sums");
    for (unit, rulers) in [("in", ["8", "16", "64"]), ("mm", ["1", "2", "10"])] {
        for ruler in rulers {
            let figures = figures(
                &bench,
                &format!(
                    "--sheet 210x297mm --outer \"16x20 1/8in\" --overlap 3.1mm --undermat 5mm \
                     --unit {unit} --ruler {ruler} --bottom-extra 13mm"
                ),
            );
            for set in [&figures, &figures["bench"]] {
                let (opening, mm) = (&set["openings"][0], |v: &Value| v.as_f64().unwrap());
                for (before, behind, long) in
                    [("left_mm", "right_mm", "width_mm"), ("top_mm", "bottom_mm", "height_mm")]
                {
                    let borders = &opening["borders"];
                    let sum = mm(&borders[before])
                        + mm(&opening["sight"][long])
                        + mm(&borders[behind]);
                    let outer = mm(&set["outer"][long]);
                    assert!((sum - outer).abs() < 1e-9, "{unit} {ruler}: {sum}, not {outer}");
                    for side in [before, behind] {
                        let overlap = mm(&opening["overlap"][side]);
                        assert!(overlap > 3.1 - 1e-9, "{unit} {ruler}: {side} {overlap}");
                    }
                }
            }
        }
    }
}

/// Source: derived: outer and window of a bought mat are measured, the sheet lies under it with
/// what is seen centred.
#[test]
fn a_window_in_hand() {
    let bench = bench("in-hand");
    let figures = figures(
        &bench,
        "--sheet 8x10in --outer 14x18 --window \"7 5/8x9 1/2in\" --bottom-extra 1/2",
    );
    let opening = &figures["openings"][0];
    assert_eq!(figures["in_hand"], true);
    assert_eq!(size(&opening["sight"]), "7 5/8, 9 1/2");
    assert_eq!(four(&opening["borders"]), "4, 3 3/16, 4 1/2, 3 3/16");
    assert_eq!(four(&opening["overlap"]), "1/4, 3/16, 1/4, 3/16");
    assert_eq!(four(&opening["reveal"]), "-1/4, -3/16, -1/4, -3/16");
}

/// Source: ISO 216: A0 is 841 × 1189 mm, B0 1000 × 1414 mm; each next size halves the long
/// side, rounded down to whole millimetres.
#[test]
fn sheets_of_iso_216() {
    let mut checked = 0;
    for (series, mut short, mut long) in [("A", 841, 1189), ("B", 1000, 1414)] {
        for number in 0..=6 {
            let name = format!("{series}{number}");
            if let Some(row) = Tables::shipped().sheets.iter().find(|row| row.name == name) {
                assert_eq!(row.size, Size::new(Length::mm(short), Length::mm(long)), "{name}");
                assert_eq!(row.origin, "ISO 216", "{name}");
                checked += 1;
            }
            (short, long) = (long / 2, short);
        }
    }
    let named = Tables::shipped().sheets.iter().filter(|row| row.origin == "ISO 216").count();
    assert_eq!((checked, checked), (named, 6), "every row that names ISO 216 is checked");
}

/// Source: CCI Notes 11/5, Canadian Conservation Institute: its sizes of pre-cut mats in inches
/// and centimetres (the first and the last pair as printed; the others by 2.54 cm to the inch).
#[test]
fn pairs_of_inches_and_centimetres() {
    let bench = bench("pairs");
    let pairs = [
        ("8x10", "20.3x25.4"),
        ("10x12", "25.4x30.5"),
        ("14x18", "35.6x45.7"),
        ("16x22", "40.6x55.9"),
        ("22x28", "55.9x71.1"),
        ("28x36", "71.1x91.4"),
    ];
    for (inches, centimetres) in pairs {
        let figures = figures(&bench, &format!("--sheet 4x5in --outer {inches}in"));
        let cm = |name: &str| figures["outer"][name].as_f64().unwrap() / 10.0;
        assert_eq!(format!("{:.1}x{:.1}", cm("width_mm"), cm("height_mm")), centimetres);
    }
    let origin = "CCI Notes 11/5";
    let rows = Tables::shipped().outer.iter().filter(|row| row.origin == origin);
    let found: Vec<String> = rows
        .map(|row| {
            let inches = |length: Length| length.write(Style::InchFraction(8)).text;
            format!("{}x{}", inches(row.size.width), inches(row.size.height)).replace(" in", "")
        })
        .collect();
    assert_eq!(found, pairs.map(|(inches, _)| inches), "every row that names the source");
}

/// Source: common practice: 2 in of border all round, 50 mm in a metric plan; the standard
/// sizes are those of CCI Notes 11/5 and common practice.
#[test]
fn the_smallest_standard_size() {
    #[track_caller]
    fn case(bench: &Bench, options: &str, outer: &str, said: &str) {
        let made = bench.new_plan(options);
        assert!(made.out.contains(said), "{options}: {}{}", made.out, made.err);
        let figures = bench.figures("").unwrap();
        let unit = if figures["unit"] == "in" { Unit::Inch } else { Unit::Millimetre };
        assert_eq!(texts(&figures["outer"], &["width", "height"], unit), outer, "{options}");
    }
    let bench = bench("standard");
    let said = "is the smallest standard size with even borders of at least 2 in";
    case(&bench, "--sheet 8x10in", "14, 18", said);
    case(&bench, "--sheet 10x8in", "18, 14", said);
    case(&bench, "--sheet 12x16in --overlap 0", "16, 20", said);
    case(&bench, "--sheet 12x16in --overlap 0 --undermat 1/4", "18, 24", said);
    // A heavier bottom takes from the top, which must keep its 2 in.
    case(&bench, "--sheet 12x16in --overlap 0 --bottom-extra 1/2", "16, 22", said);
    case(&bench, "--sheet 12x16in --overlap 0 --optical", "16, 22", said);
    case(&bench, "--sheet 206x306mm", "300, 400", "with even borders of at least 50 mm");
    case(
        &bench,
        "--sheet 206x306mm --overlap 3.1",
        "300, 400",
        "with even borders of at least 50 mm",
    );
    // Beyond every standard size: 39 3/4 + 4 and 59 3/4 + 4, up to the half inch; with the
    // bottom 1 in wider, 4 3/4 + 1/2 above and below leave 2 1/8 above.
    let own = "no standard size leaves even borders of about 2 in";
    case(&bench, "--sheet 40x60in", "44, 64", own);
    case(&bench, "--sheet 40x60in --bottom-extra 1", "44, 65", own);
    // 4 3/4 and 14 3/4 with 4 in; 5 3/4 above and below at the optical centre of 9 in width
    // would leave less than 2 above.
    case(&bench, "--sheet 15x5in", "19, 9", own);
    case(&bench, "--sheet 8x8in", "12, 12", own);
    let own = "no standard size leaves even borders of about 50 mm";
    case(&bench, "--sheet 200x600mm", "300, 700", own);
}
