//! Colours: those drawn from the picture, the paper's white, other eyes; and what the
//! picture's file says of its size.

use egui::Key;
use sightedge_core::material::Colour;
use sightedge_core::spec::LayerId;
use sightedge_pictures::colour::{Lab, Vision, delta_e_2000};

use crate::support::{Image, Plans, Window, open};

/// The same as those eyes see it, apart by so many levels on average, and the share of places
/// that are off by more than 10: edges are mixed before or after.
fn apart(window: &Window, before: &Image, after: &Image, vision: Vision) -> (f32, f32) {
    let board = window.board().shrink(3.0);
    let (mut sum, mut off, mut count) = (0.0_f32, 0.0_f32, 0.0_f32);
    for y in board.top() as usize..board.bottom() as usize {
        for x in (board.left() as usize..board.right() as usize).step_by(3) {
            let bytes = |pixel: [f32; 4]| {
                let byte = |part: f32| (part * 255.0).round() as u8;
                [byte(pixel[0]), byte(pixel[1]), byte(pixel[2])]
            };
            let wanted = vision.see(bytes(before.at(x, y)));
            let found = bytes(after.at(x, y));
            let worst = (0..3).map(|i| found[i].abs_diff(wanted[i])).max().unwrap();
            sum += f32::from(worst);
            off += if worst > 10 { 1.0 } else { 0.0 };
            count += 1.0;
        }
    }
    (sum / count, off / count)
}

/// Board, undermat, bevels and picture are all seen with the other eyes, and come back.
#[test]
fn other_eyes_see_all_of_the_board() {
    let plans = Plans::new();
    let path = plans.plan("rust.png", |document| {
        let mat = &mut document.variants[0].mat;
        mat.layers[0].board.colour = Colour::new(176, 72, 48);
        let mut undermat = mat.layers[0].clone();
        undermat.id = LayerId(2);
        undermat.board.colour = Colour::new(60, 130, 70);
        mat.layers.push(undermat);
        let wide = sightedge_core::geometry::Sides::all(crate::support::inches("1"));
        mat.openings[0].offsets.insert(LayerId(2), wide);
    });
    let mut window = open(&[&path]);
    window.key_with(egui::Modifiers::COMMAND, Key::D);
    window.wait(1.0);
    let before = window.image();
    let see = |window: &mut Window, words: &str| {
        window.click("More");
        window.click(words);
        window.key(Key::Escape);
        window.wait(1.0);
    };
    for (vision, words) in [
        (Vision::Protan, "lack red (protan)"),
        (Vision::Deutan, "lack green (deutan)"),
        (Vision::Tritan, "lack blue (tritan)"),
    ] {
        see(&mut window, words);
        let after = window.image();
        let (mean, off) = apart(&window, &before, &after, vision);
        assert!(mean < 2.0 && off < 0.02, "{vision:?}: {mean} levels, {off} off");
        let (other, _) = apart(&window, &before, &before, vision);
        assert!(other > 15.0, "{vision:?} would be told from all colours: {other}");
    }
    see(&mut window, "see all colours");
    assert_eq!(window.image(), before, "as it was");
}

/// Boards come nearest first, in words, and can be taken; no number of colour science is on the
/// face.
#[test]
fn boards_by_how_close_they_come() {
    const WORDS: [&str; 5] = [
        "looks the same",
        "very close match",
        "close match",
        "fair match",
        "clearly different",
    ];
    let plans = Plans::new();
    let mut window = open(&[&plans.reference()]);
    window.resize(1800.0, 2400.0);
    window.click("Colours…");
    // Beside the picture, not over it.
    let texts = window.texts();
    for science in ["ΔE", "L*", "CIEDE2000"] {
        assert!(!texts.contains(science), "{science} in {texts}");
    }
    let board = window.board();
    let panel = window.find("Layer to recolour: top mat").rect;
    assert!(panel.left() > board.right(), "{panel:?} lies over {board:?}");
    // Paper of a known white, then one measured by hand: suggestions follow it.
    let board = |window: &Window| window.mat().layers[0].board.colour;
    window.type_in("White of the paper in hexadecimal", "#e8dcc0");
    window.key(Key::Enter);
    let white = window.mat().assembly.paper.as_ref().and_then(|paper| paper.white);
    assert_eq!(white, Some(Colour::new(0xe8, 0xdc, 0xc0)), "set");
    let seen = window.seen();
    let mats: Vec<&str> = seen.iter().filter_map(|s| s.name.strip_prefix("Mat #")).collect();
    assert!(mats.contains(&"e8dcc0"), "one suggestion is as white as the paper: {mats:?}");
    let near = |seen: &[crate::support::Seen]| -> Vec<String> {
        let named = seen.iter().filter(|one| one.name.starts_with("Take "));
        named.filter(|one| one.name.contains(", ")).map(|one| one.name.clone()).collect()
    };
    let told = near(&seen);
    assert!(told.len() >= 12, "three for each suggestion and the layer: {told:?}");
    for three in told.chunks_exact(3) {
        let rank = |name: &String| {
            let (_, words) = name.rsplit_once(", ").unwrap();
            WORDS.iter().position(|one| *one == words).unwrap_or_else(|| panic!("{name}"))
        };
        assert!(three.iter().map(rank).is_sorted(), "nearest first: {three:?}");
    }
    // The first three are those of the layer; then those of the first suggestion.
    let name = told[3].clone();
    window.click(&name);
    let taken = board(&window);
    assert!(name.starts_with(&format!("Take {}", window.mat().layers[0].board.name)), "{name}");
    let lab = |c: Colour| Lab::from_srgb([c.red, c.green, c.blue]);
    let wanted = Colour::from_hex(mats[0]).unwrap();
    let difference = delta_e_2000(lab(taken), lab(wanted));
    assert!(
        name.ends_with(sightedge_service::wording::close(difference)),
        "{difference}: {name}"
    );
}

/// The colours say which layer they recolour, and turn to another one.
#[test]
fn the_layer_that_is_recoloured_is_chosen() {
    let plans = Plans::new();
    let mut window = open(&[&plans.reference()]);
    window.click("Colours…");
    window.click("Layer to recolour: undermat");
    window.type_in("Colour in hexadecimal", "#336699");
    window.key(Key::Enter);
    let layers = &window.mat().layers;
    assert_eq!(layers[1].board.colour, Colour::new(0x33, 0x66, 0x99));
    assert_ne!(layers[0].board.colour, layers[1].board.colour);
    // What is no colour stays in its field, with the reason.
    window.type_in("Colour in hexadecimal", "blue");
    window.key(Key::Enter);
    let why = "\"blue\" is not a colour: give six digits such as #f4f1ea";
    assert!(window.texts().contains(why), "{}", window.texts());
    window.click("Close");
    assert!(!window.has("Layer to recolour: undermat"));
}

/// A board that is almost the paper's white, and not quite, is warned of.
#[test]
fn whites_that_clash_are_told() {
    let plans = Plans::new();
    let path = plans.plan("whites.png", |document| {
        document.variants[0].mat.layers[0].board.colour = Colour::new(244, 240, 228);
    });
    let mut window = open(&[&path]);
    window.click("Colours…");
    assert!(window.texts().contains("The top mat as it is"), "{}", window.texts());
    assert!(window.texts().contains("Almost the paper's white"), "{}", window.texts());
}

/// `picture` with a stated resolution, in whole pixels a metre.
fn state_resolution(picture: &std::path::Path, per_metre: u32) {
    let bytes = std::fs::read(picture).unwrap();
    // After the signature and the header: 8 + 25 bytes. Checksums are not looked at.
    let (head, rest) = bytes.split_at(33);
    let mut made = head.to_vec();
    made.extend(9_u32.to_be_bytes());
    made.extend(b"pHYs");
    made.extend(per_metre.to_be_bytes());
    made.extend(per_metre.to_be_bytes());
    made.push(1);
    made.extend([0; 4]);
    made.extend(rest);
    std::fs::write(picture, made).unwrap();
}

/// A print size that the file states and the plan does not have is a note, with its way out.
#[test]
fn another_print_size_is_noted() {
    let plans = Plans::new();
    let plan = plans.plan("sized.png", |_| {});
    // 1100 × 1500 pixels at 5906 a metre (150 an inch): 7 1/3 × 10 in; the plan has 11 × 15.
    state_resolution(&plans.folder().join("sized.png"), 5906);
    let mut window = open(&[&plan]);
    assert!(window.texts().contains("The file is set to print at"), "{}", window.texts());
    let remedy = window.seen().into_iter().find(|one| one.name.starts_with("Set the image to"));
    window.click(&remedy.unwrap().name);
    assert!(!window.texts().contains("The file is set to print at"), "mended");
    let size = window.document().works[0].image.size;
    assert!((size.width.to_mm() - 186.25).abs() < 0.1, "{size:?}");
}
