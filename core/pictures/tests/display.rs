//! A monitor's colours against an independent colour engine.
#![allow(clippy::unwrap_used, reason = "a failing test says where")]
#![allow(clippy::print_stdout, reason = "figures to be seen, and what was not run")]

mod support;

use std::io::Write;
use std::path::Path;
use std::process::{Command, Stdio};

use sightedge_pictures::ToDisplay;
use sightedge_pictures::colour::{Lab, delta_e_2000};
use support::icc::{P3, SRGB, WIDE};

/// Missing outside data or tools are a failure where everything is meant to be there.
fn not_run(what: &str) {
    assert!(std::env::var_os("CI").is_none(), "not run: {what}");
    println!("not run: {what}");
}

/// Source: the profiles of Debian's packages colord-data 1.4.6 and icc-profiles-free 2.0.1:
/// matrices with power curves, with formulas, and with curves of points.
const PUBLISHED: [&str; 7] = [
    "colord/AdobeRGB1998",
    "colord/AppleRGB",
    "colord/ECI-RGBv2",
    "colord/WideGamutRGB",
    "colord/SwappedRedAndGreen",
    "colord/Rec709",
    "LStar-RGB",
];
const FOLDER: &str = "/usr/share/color/icc";

/// 1,000 sRGB colours: all ten steps of each channel.
fn colours() -> Vec<[u8; 3]> {
    let step = |i: u32| u8::try_from(i % 10 * 255 / 9).unwrap();
    (0..1000).map(|i| [step(i), step(i / 10), step(i / 100)]).collect()
}

/// What Little CMS makes of colours, relative colorimetric and without black point
/// compensation; `None` where it is not installed.
fn transicc(options: &[String], colours: &[[f64; 3]]) -> Option<Vec<[f64; 3]>> {
    let lines: Vec<String> =
        colours.iter().map(|[a, b, c]| format!("{a:.9} {b:.9} {c:.9}\n")).collect();
    let lines = lines.concat();
    let Ok(mut child) = Command::new("transicc")
        .args(["-n", "-t1"])
        .args(options)
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::null())
        .spawn()
    else {
        not_run("transicc is not installed (Debian: liblcms2-utils)");
        return None;
    };
    let mut input = child.stdin.take().unwrap();
    let writer = std::thread::spawn(move || input.write_all(lines.as_bytes()));
    let output = child.wait_with_output().unwrap();
    writer.join().unwrap().unwrap();
    let text = String::from_utf8(output.stdout).unwrap();
    let numbers: Vec<f64> =
        text.split_whitespace().filter_map(|v| v.parse::<f64>().ok()).collect();
    assert_eq!(numbers.len(), colours.len() * 3, "one answer each");
    Some(numbers.as_chunks::<3>().0.to_vec())
}

/// Source: Little CMS 2 through its `transicc` (Debian: liblcms2-utils). It makes the monitor's
/// values and tells what each of both looks like.
#[test]
fn published_profiles_against_little_cms() {
    let wide = |all: &[[u8; 3]]| -> Vec<[f64; 3]> {
        all.iter().map(|rgb| rgb.map(f64::from)).collect()
    };
    let meant = colours();
    for name in PUBLISHED {
        let path = format!("{FOLDER}/{name}.icc");
        let Ok(profile) = std::fs::read(&path) else {
            return not_run(&format!(
                "{path} is missing (Debian: colord-data and icc-profiles-free)"
            ));
        };
        let display = ToDisplay::new(&profile).unwrap();
        assert_ne!(display.name(), "", "{name} names itself");
        let ours: Vec<[u8; 3]> = meant.iter().map(|rgb| display.colour(*rgb)).collect();
        let to = [format!("-o{path}"), "-i*sRGB".to_owned()];
        let Some(theirs) = transicc(&to, &wide(&meant)) else { return };
        // It tells of what no monitor can show as values below 0 and above 255.
        let theirs: Vec<[f64; 3]> =
            theirs.iter().map(|rgb| rgb.map(|v| v.clamp(0.0, 255.0))).collect();
        let look = [format!("-i{path}"), "-o*Lab".to_owned()];
        let (Some(ours), Some(theirs)) =
            (transicc(&look, &wide(&ours)), transicc(&look, &theirs))
        else {
            return;
        };
        let lab = |[l, a, b]: [f64; 3]| Lab::new(l, a, b);
        let mut off: Vec<f64> =
            ours.iter().zip(&theirs).map(|(a, b)| delta_e_2000(lab(*a), lab(*b))).collect();
        off.sort_by(f64::total_cmp);
        let (mean, most) = (off.iter().sum::<f64>() / 1000.0, off[999]);
        println!("{name}: mean {mean:.3}, 99 of 100 {:.3}, largest {most:.3}", off[989]);
        assert!(mean < 0.3 && most < 1.0, "{name}: mean {mean:.3}, largest {most:.3}");
    }
}

#[test]
fn pixels_are_as_single_colours_and_opacity_stays() {
    let display = ToDisplay::new(&WIDE.profile()).unwrap();
    assert_eq!(display.name(), WIDE.name);
    let colours = colours();
    let mut rgba: Vec<u8> = (0_u8..=255)
        .cycle()
        .zip(colours.iter().cycle())
        .take(9_001)
        .flat_map(|(alpha, [r, g, b])| [*r, *g, *b, alpha])
        .collect();
    let before = rgba.clone();
    display.apply(&mut rgba);
    for (was, is) in before.as_chunks::<4>().0.iter().zip(rgba.as_chunks::<4>().0) {
        let [r, g, b] = display.colour([was[0], was[1], was[2]]);
        assert_eq!(*is, [r, g, b, was[3]]);
    }
    assert_ne!(before, rgba);
}

#[test]
fn white_black_and_srgb_stay_as_they_are() {
    for device in [WIDE, P3, SRGB] {
        let display = ToDisplay::new(&device.profile()).unwrap();
        assert_eq!(display.colour([255; 3]), [255; 3], "{}", device.name);
        assert_eq!(display.colour([0; 3]), [0; 3], "{}", device.name);
    }
    let display = ToDisplay::new(&SRGB.profile()).unwrap();
    for rgb in colours() {
        let same = display.colour(rgb).iter().zip(rgb).all(|(a, b)| a.abs_diff(b) <= 1);
        assert!(same, "{rgb:?}: {:?}", display.colour(rgb));
    }
    // A wide monitor's red is stronger than sRGB's, so that less of it is sent.
    let wide = ToDisplay::new(&WIDE.profile()).unwrap().colour([255, 0, 0]);
    assert!(wide[0] < 225 && wide[1] < 10, "{wide:?}");
}

#[test]
fn what_is_no_monitors_profile_is_refused_in_words() {
    let good = WIDE.profile();
    let broken = ToDisplay::new(&good[..200]).unwrap_err().to_string();
    assert!(
        broken.starts_with("this colour profile is damaged (")
            && broken.ends_with("): copy it again, or have the screen measured anew"),
        "{broken}"
    );
    let nothing = ToDisplay::new(&[]).unwrap_err().to_string();
    assert!(nothing.starts_with("this colour profile is damaged ("), "{nothing}");
    let mut grey = good.clone();
    grey[16..20].copy_from_slice(b"GRAY");
    assert_eq!(
        ToDisplay::new(&grey).unwrap_err().to_string(),
        "this colour profile is for grey values; a screen’s profile is for RGB values: choose \
         another file"
    );
    // Whatever a file holds, it is refused or used, never a crash.
    for at in 0..good.len() {
        let mut odd = good.clone();
        odd[at] ^= 0x5a;
        if let Ok(display) = ToDisplay::new(&odd) {
            assert_eq!(display.colour([200, 30, 90]), display.colour([200, 30, 90]));
        }
    }
    if let Ok(bytes) = std::fs::read(Path::new(FOLDER).join("Gray.icc")) {
        assert!(ToDisplay::new(&bytes).is_err());
    }
}
