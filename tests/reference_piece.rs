//! The reference piece, every figure of it, through the commands and in the pixels of its
//! picture.
//!
//! Source: worked out by hand (derived): a 13 × 19 in sheet with an 11 × 15 in image, two
//! layers of .060 in cut at 45 degrees, borders given.

#![allow(
    clippy::expect_used,
    clippy::panic,
    clippy::unwrap_used,
    reason = "a test fails by panicking"
)]

use std::fs::File;
use std::io::BufReader;
use std::path::Path;
use std::process::Command;

use serde_json::Value;
use sightedge_core::length::Unit;
use sightedge_tests::commands::{Bench, four, png, size, texts, wrong_texts};

const OPTIONS: &str = "--sheet 13x19in --image 11x15 --image-at \"1,1 1/2\" \
    --border \"4 1/2,4 5/16,5 1/2,3 13/16\" --reveal 1/4,1/4,3/8,1/4 --undermat 3/16";

fn made(name: &str) -> Bench {
    let bench = Bench::new(env!("CARGO_TARGET_TMPDIR"), name).unwrap();
    let said = bench.new_plan(OPTIONS);
    assert_eq!((said.exit, said.err.as_str()), (0, ""), "{said:?}");
    bench
}

/// Every figure of one set; on a ruler of 1/16 in both sets are the same.
#[track_caller]
fn every_figure(set: &Value) {
    let opening = &set["openings"][0];
    let (top, undermat) = (&opening["layers"][0], &opening["layers"][1]);
    let rows = [
        ("outer", size(&set["outer"]), "20, 26"),
        ("window", size(&opening["sight"]), "11 1/2, 15 5/8"),
        ("borders", four(&opening["borders"]), "4 11/16, 4 1/2, 5 11/16, 4"),
        ("reveal", four(&opening["reveal"]), "1/4, 1/4, 3/8, 1/4"),
        ("overlap", four(&opening["overlap"]), "1 1/4, 3/4, 2 1/8, 3/4"),
        ("sheet", size(&opening["sheet"]), "13, 19"),
        ("sheet's place", four(&opening["sheet"]), "3 7/16, 3 3/4, 3 9/16, 3 1/4"),
        ("image", size(&opening["image"]), "11, 15"),
        ("image's place", four(&opening["image"]), "4 15/16, 4 3/4, 6 1/16, 4 1/4"),
        ("top layer's sight", size(&top["sight"]), "11 7/8, 16"),
        ("top layer's face", size(&top["face"]), "11.995, 16.12"),
        ("top layer's borders", four(&top["borders"]), "4 1/2, 4 5/16, 5 1/2, 3 13/16"),
        ("top layer's bevel", texts(top, &["bevel"], Unit::Inch), "0.06"),
        ("top layer's stops", four(&top["stops"]), "4 1/2, 3 13/16, 5 1/2, 4 5/16"),
        ("top layer's drop-out", size(&top["drop_out"]), "11 7/8, 16"),
        ("top layer's blank", size(&top["blank"]), "20, 26"),
        ("undermat's sight", size(&undermat["sight"]), "11 1/2, 15 5/8"),
        ("undermat's face", size(&undermat["face"]), "11.62, 15.745"),
        ("undermat's borders", four(&undermat["borders"]), "4 11/16, 4 1/2, 5 11/16, 4"),
        ("undermat's offset", four(&undermat["offset"]), "3/16, 3/16, 3/16, 3/16"),
        ("flat and bevel", texts(undermat, &["flat", "bevel"], Unit::Inch), "0.1275, 0.06"),
        ("undermat's blank", size(&undermat["blank"]), "19 1/2, 25 1/2"),
        ("undermat's stops", four(&undermat["stops"]), "4 11/16, 4, 5 11/16, 4 1/2"),
        (
            "undermat's stops, loose",
            four(&undermat["stops_loose"]),
            "4 7/16, 3 3/4, 5 7/16, 4 1/4",
        ),
        ("undermat's drop-out", size(&undermat["drop_out"]), "11 1/2, 15 5/8"),
    ];
    for (name, found, wanted) in rows {
        assert_eq!(found, wanted, "{name}");
    }
    assert_eq!(
        (opening["layers"].as_array().unwrap().len(), &top["angle_deg"]),
        (2, &45.0.into())
    );
}

#[test]
fn every_figure_through_the_commands() {
    let bench = made("reference-figures");
    let figures = bench.figures("").unwrap();
    assert_eq!(figures["unit"], "in");
    every_figure(&figures);
    every_figure(&figures["bench"]);
    assert_eq!(wrong_texts(&figures), [""; 0]);
    assert_eq!(size(&figures["backing"]), "20, 26");
}

/// Millimetres are not rounded: 25.4 to the inch by definition.
#[test]
fn millimetres_are_not_rounded() {
    #[track_caller]
    fn case(figures: &Value, at: &str, inches: f64) {
        let found = figures.pointer(at).and_then(Value::as_f64).expect(at);
        assert!((found - inches * 25.4).abs() < 1e-9, "{at}: {found} mm, not {inches} in");
    }
    let figures = made("reference-mm").figures("").unwrap();
    case(&figures, "/outer/width_mm", 20.0);
    case(&figures, "/openings/0/sight/width_mm", 11.5);
    case(&figures, "/openings/0/sight/height_mm", 15.625);
    case(&figures, "/openings/0/borders/bottom_mm", 5.6875);
    case(&figures, "/openings/0/layers/0/face/width_mm", 11.995);
    case(&figures, "/openings/0/layers/1/flat_mm", 0.1275);
    case(&figures, "/openings/0/layers/1/stops_loose/left_mm", 4.25);
    case(&figures, "/bench/openings/0/overlap/bottom_mm", 2.125);
}

/// The same as a person reads it, by the program as a process.
#[test]
fn as_a_process() {
    let bench = made("reference-process");
    let command = |words: &[&str]| {
        let mut command = Command::new(env!("CARGO_BIN_EXE_as_a_process"));
        let output = command.args(words).arg(bench.path(Bench::PLAN)).output().unwrap();
        let text = String::from_utf8(output.stdout).unwrap();
        assert!(output.stderr.is_empty(), "{:?}", String::from_utf8_lossy(&output.stderr));
        (output.status.code(), text)
    };
    let (code, text) = command(&["figures"]);
    assert_eq!(code, Some(0));
    for line in [
        "  outer                     20 × 26 in",
        "  top mat window            11 7/8 × 16 in",
        "  window, sight edge        11 1/2 × 15 5/8 in",
        "  borders                   top 4 1/2 in, right 4 5/16 in, bottom 5 1/2 in, left 3 13/16 in",
        "  overlap                   top 1 1/4 in, right 3/4 in, bottom 2 1/8 in, left 3/4 in",
        "    shows at least          0.1275 in flat + 0.06 in bevel",
        "    blank                   19 1/2 × 25 1/2 in",
    ] {
        assert!(text.lines().any(|l| l == line), "{line}\n{text}");
    }
    // Its 22 × 30 pixels are too few for 11 × 15 in: a Caution, and nothing else.
    let (code, text) = command(&["check", "--json"]);
    assert_eq!(code, Some(1));
    let found: Value = serde_json::from_str(&text).unwrap();
    let rules: Vec<_> =
        found["findings"].as_array().unwrap().iter().map(|f| &f["rule"]).collect();
    assert_eq!(rules, ["resolution"]);
}

/// With pixels enough the piece is a good mat: nothing is found at all.
#[test]
fn nothing_would_fail() {
    let bench = made("reference-sound");
    bench.put(Bench::PICTURE, &png((2640, 3600), None, [31, 58, 96]).unwrap()).unwrap();
    assert_eq!(bench.new_plan(OPTIONS).exit, 0);
    let said = bench.run("check @print.png.sightedge.ron");
    assert_eq!((said.exit, said.out.trim()), (0, "Nothing would fail."));
}

/// A picture that was painted, and the lines through it.
struct Painted {
    width: usize,
    rgb: Vec<u8>,
}

impl Painted {
    fn read(path: &Path) -> Self {
        let file = BufReader::new(File::open(path).unwrap());
        let mut reader = png::Decoder::new(file).read_info().unwrap();
        let mut rgb = vec![0; reader.output_buffer_size().unwrap()];
        let info = reader.next_frame(&mut rgb).unwrap();
        assert_eq!(info.color_type, png::ColorType::Rgb);
        Self { width: usize::try_from(info.width).unwrap(), rgb }
    }

    fn pixel(&self, x: usize, y: usize) -> [i32; 3] {
        let at = (y * self.width + x) * 3;
        [at, at + 1, at + 2].map(|at| i32::from(self.rgb[at]))
    }

    fn height(&self) -> usize {
        self.rgb.len() / 3 / self.width
    }

    fn row(&self, y: usize) -> Vec<[i32; 3]> {
        (0..self.width).map(|x| self.pixel(x, y)).collect()
    }

    fn column(&self, x: usize) -> Vec<[i32; 3]> {
        (0..self.height()).map(|y| self.pixel(x, y)).collect()
    }
}

/// Where the stuff on a line of pixels changes: the place in pixels at which a run begins.
fn edges(line: &[[i32; 3]]) -> Vec<f64> {
    let mut edges = Vec::new();
    let mut at = 0;
    while at + 3 < line.len() {
        let far =
            |a: [i32; 3], b: [i32; 3]| a.iter().zip(b).map(|(a, b)| (a - b).abs()).sum::<i32>();
        // A change within two pixels, far beyond what shade and shadow do in so short a way.
        let (before, after) = (line[at], line[at + 2]);
        if far(before, after) > 24 {
            // The pixel between both is covered in part by each.
            let between = f64::from(far(line[at + 1], after)) / f64::from(far(before, after));
            edges.push(f64::from(u32::try_from(at + 1).unwrap()) + between.min(1.0));
            at += 2;
        }
        at += 1;
    }
    edges
}

/// The edges found across and down the middle of the mat's picture, at 100 pixels an inch, and
/// where the figures want those of `layers` and of `image`.
fn edges_of(bench: &Bench, image: bool) -> [(Vec<f64>, Vec<f64>); 2] {
    // Boards of strong colours, so that each edge shows.
    let plan = std::fs::read_to_string(bench.path(Bench::PLAN)).unwrap();
    let mut parts = plan.split("#f6f5f1");
    let mut coloured = parts.next().unwrap().to_owned();
    for (part, colour) in parts.zip(["#2e7d32", "#7d2e2e", "#f6f5f1"]) {
        coloured.push_str(colour);
        coloured.push_str(part);
    }
    bench.put(Bench::PLAN, coloured.as_bytes()).unwrap();
    // The surround takes 9 % of the longer side all round: 2.34 in.
    let said = bench.run("picture @print.png.sightedge.ron --out @out.png --width 2468");
    assert_eq!(said.exit, 0, "{said:?}");
    let painted = Painted::read(&bench.path("out.png"));
    assert_eq!((painted.width, painted.height()), (2468, 3068));

    let figures = bench.figures("").unwrap();
    let opening = &figures["openings"][0];
    let inches = |value: &Value, name: &str| value[name].as_f64().unwrap() / 25.4;
    let wanted = |before: &str, size: &str| {
        let mut wanted = vec![0.0, inches(&figures["outer"], size)];
        for layer in opening["layers"].as_array().unwrap() {
            let (from, bevel) = (inches(&layer["borders"], before), inches(layer, "bevel_mm"));
            let to = from + inches(&layer["sight"], size);
            wanted.extend([from - bevel, from, to, to + bevel]);
        }
        if image {
            let from = inches(&opening["image"], before);
            wanted.extend([from, from + inches(&opening["image"], size)]);
        }
        wanted.sort_by(f64::total_cmp);
        wanted.iter().map(|inches| (inches + 2.34) * 100.0).collect()
    };
    [
        (edges(&painted.row(1534)), wanted("left_mm", "width_mm")),
        (edges(&painted.column(1234)), wanted("top_mm", "height_mm")),
    ]
}

/// Each edge within one pixel of its figure: the board's edge, the face and the sight edge of
/// each layer. The same mat on a sheet that is printed to its edges, so that bevels meet colour.
#[test]
fn edges_of_the_mat_in_the_pixels() {
    let bench = made("reference-edges");
    let said = bench.new_plan(
        "--sheet 13x19in --border \"4 1/2,4 5/16,5 1/2,3 13/16\" --undermat 3/16 \
         --overlap \"1 1/4,3/4,2 1/8,3/4\"",
    );
    assert_eq!(said.exit, 0, "{said:?}");
    for (found, wanted) in edges_of(&bench, false) {
        assert_eq!(found.len(), wanted.len(), "{found:?} for {wanted:?}");
        for (found, wanted) in found.iter().zip(&wanted) {
            assert!((found - wanted).abs() <= 1.0, "an edge at {found} px, not at {wanted} px");
        }
    }
}

/// The reference piece itself: the image's edges are there, and no edge where there is none.
/// In the shade at the left and the top, white bevel and white paper may be alike.
#[test]
fn edges_of_the_image_in_the_pixels() {
    for (found, wanted) in edges_of(&made("reference-picture"), true) {
        for edge in &found {
            let near = wanted.iter().any(|wanted| (edge - wanted).abs() <= 1.0);
            assert!(near, "an edge at {edge} px: {wanted:?}");
        }
        let unseen = wanted.iter().filter(|w| !found.iter().any(|f| (f - *w).abs() <= 1.0));
        let unseen: Vec<_> = unseen.collect();
        // In order: board, face, sight, face, sight, image; then back.
        assert!(
            unseen.is_empty() || unseen == [&wanted[4]],
            "not seen: {unseen:?} of {wanted:?}"
        );
    }
}
