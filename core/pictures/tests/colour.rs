//! Colour against published numbers and an independent colour engine.
#![allow(clippy::unwrap_used, reason = "a failing test says where")]
#![allow(clippy::print_stdout, reason = "figures to be seen, and what was not run")]

mod support;

use std::io::Write;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

use sightedge_pictures::colour::{Lab, contrast_ratio, delta_e_2000};
use sightedge_pictures::{Finding, Limits, ProfileFacts, ToSrgb, probe};
use support::icc::{Device, P3, ROMM, SRGB, WIDE, apply, inverse};
use support::{difference, folder, whole};

/// Missing outside data or tools are a failure where everything is meant to be there.
fn not_run(what: &str) {
    assert!(std::env::var_os("CI").is_none(), "not run: {what}");
    println!("not run: {what}");
}

/// Source: Sharma, Wu, Dalal, "The CIEDE2000 Color-Difference Formula: Implementation Notes,
/// Supplementary Test Data, and Mathematical Observations", Color Res. Appl. 30 (2005), table 1.
#[test]
fn ciede2000_on_the_34_published_pairs() {
    let data = std::env::var_os("SIGHTEDGE_DATA").map_or_else(
        || Path::new(env!("CARGO_MANIFEST_DIR")).join("../../../shared/sharma.csv"),
        |data| PathBuf::from(data).join("../sharma.csv"),
    );
    let Ok(text) = std::fs::read_to_string(&data) else {
        return not_run(&format!("the published pairs are not at {}", data.display()));
    };
    let mut pairs = 0;
    for line in text.lines() {
        let n: Vec<f64> = line.split(',').filter_map(|v| v.trim().parse().ok()).collect();
        let [l1, a1, b1, l2, a2, b2, wanted] = n[..] else { continue };
        let (one, two) = (Lab::new(l1, a1, b1), Lab::new(l2, a2, b2));
        for (x, y) in [(one, two), (two, one)] {
            let got = delta_e_2000(x, y);
            assert!((got - wanted).abs() < 1e-4, "{line}: {got}");
        }
        pairs += 1;
    }
    assert_eq!(pairs, 34, "all of them");
}

/// Source: a public test file of sRGB primaries in CIELAB (D65 white .9505 1 1.089); other
/// roundings of the matrix differ by up to .03.
#[test]
fn primaries_in_lab() {
    let cases = [
        ([255, 0, 0], [53.2329, 80.1053, 67.2228]),
        ([0, 255, 0], [87.7370, -86.1884, 83.1861]),
        ([0, 0, 255], [32.3026, 79.1936, -107.8537]),
        ([255, 255, 255], [100.0, 0.0, 0.0]),
        ([0, 0, 0], [0.0, 0.0, 0.0]),
    ];
    for (rgb, wanted) in cases {
        let lab = Lab::from_srgb(rgb);
        for (got, wanted) in [lab.l, lab.a, lab.b].into_iter().zip(wanted) {
            assert!((got - wanted).abs() < 0.035, "{rgb:?}: {lab:?}");
        }
        assert_eq!(lab.to_srgb(), rgb, "and back");
        let hex = format!("#{:02x}{:02x}{:02x}", rgb[0], rgb[1], rgb[2]);
        assert_eq!(Lab::from_hex(&hex), Ok(lab), "and by its digits");
    }
    assert_eq!(
        Lab::from_hex("eggshell").unwrap_err(),
        "\"eggshell\" is not a colour: type # and six digits 0 to 9 and a to f, as in #f4efe6",
        "what was found, what is wanted"
    );
}

/// Source: WCAG 2.2, contrast ratio; the worked values are its published examples.
#[test]
fn contrast_ratios() {
    let cases = [
        ([0, 0, 0], [255, 255, 255], 21.0),
        ([0x76, 0x76, 0x76], [255, 255, 255], 4.54),
        ([0, 0, 255], [255, 255, 255], 8.59),
        ([0, 0, 255], [255, 0, 0], 2.15),
    ];
    for (a, b, wanted) in cases {
        assert!((contrast_ratio(a, b) - wanted).abs() < 0.005, "{a:?} on {b:?}");
        assert!((contrast_ratio(b, a) - wanted).abs() < 0.005, "whichever is lighter");
    }
}

/// The 17^3 lattice as 16-bit codes.
fn lattice() -> Vec<[u16; 3]> {
    let code = |i: u16| u16::try_from(u32::from(i) * 65535 / 16).unwrap();
    let all = (0..17u16).flat_map(move |r| {
        (0..17u16).flat_map(move |g| (0..17u16).map(move |b| [code(r), code(g), code(b)]))
    });
    all.collect()
}

fn unit(v: u16) -> f64 {
    f64::from(v) / 65535.0
}

/// The exact sRGB of a device colour, not clipped.
fn exact(device: &Device, rgb: [u16; 3]) -> [f64; 3] {
    let light = rgb.map(|v| device.linear(unit(v)));
    let linear = apply(inverse(SRGB.matrix()), apply(device.matrix(), light));
    linear.map(|v| if v <= 0.003_130_8 { v * 12.92 } else { 1.055 * v.powf(1.0 / 2.4) - 0.055 })
}

fn lab(srgb: [f64; 3]) -> Lab {
    Lab::from_linear(srgb.map(|v| SRGB.linear(v.clamp(0.0, 1.0))))
}

fn inside(srgb: [f64; 3]) -> bool {
    srgb.iter().all(|v| (0.0..=1.0).contains(v))
}

/// Mean and largest CIEDE2000 of ours to `reference` over the lattice, inside sRGB's gamut.
fn accuracy(device: &Device, reference: impl Fn(usize, [u16; 3]) -> [f64; 3]) -> (f64, f64) {
    let ours = ToSrgb::new(&device.profile()).unwrap();
    let (mut sum, mut most, mut count) = (0.0, 0.0f64, 0.0);
    for (i, rgb) in lattice().into_iter().enumerate() {
        if !inside(exact(device, rgb)) {
            continue;
        }
        let de = delta_e_2000(lab(ours.convert(rgb).unwrap()), lab(reference(i, rgb)));
        sum += de;
        most = most.max(de);
        count += 1.0;
    }
    assert!(count > 500.0, "{}: enough of the lattice lies inside", device.name);
    (sum / count, most)
}

#[test]
fn matrix_profiles_against_their_definition() {
    for device in [WIDE, P3, ROMM, SRGB] {
        let (mean, most) = accuracy(&device, |_, rgb| exact(&device, rgb));
        println!("{}: mean {mean:.4}, largest {most:.4} from the definition", device.name);
        assert!(mean <= 0.15 && most <= 0.6, "{}: {mean:.3}, {most:.3}", device.name);
    }
}

/// Little CMS's sRGB (0 to 255) of colours, one a line; `None` where it is not installed.
fn transicc(profile: &Path, lines: String) -> Option<Vec<f64>> {
    let Ok(mut child) = Command::new("transicc")
        .args(["-n", "-t1", "-o*sRGB", "-i"])
        .arg(profile)
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
    Some(text.split_whitespace().filter_map(|v| v.parse::<f64>().ok()).collect())
}

/// Source: Little CMS 2 through its `transicc` (Debian: liblcms2-utils), relative colorimetric,
/// no black point compensation.
#[test]
fn matrix_profiles_against_little_cms() {
    let folder = folder("little-cms");
    for device in [WIDE, P3, ROMM] {
        let profile = folder.join(format!("{}.icc", device.name));
        std::fs::write(&profile, device.profile()).unwrap();
        let lines: Vec<String> = lattice()
            .into_iter()
            .map(|rgb| {
                let [r, g, b] = rgb.map(|v| unit(v) * 255.0);
                format!("{r:.9} {g:.9} {b:.9}\n")
            })
            .collect();
        let Some(theirs) = transicc(&profile, lines.concat()) else { return };
        assert_eq!(theirs.len(), 17 * 17 * 17 * 3, "{}: one answer each", device.name);
        let (mean, most) = accuracy(&device, |i, _| {
            [theirs[i * 3] / 255.0, theirs[i * 3 + 1] / 255.0, theirs[i * 3 + 2] / 255.0]
        });
        println!("{}: mean {mean:.4}, largest {most:.4} from Little CMS", device.name);
        assert!(mean <= 0.15 && most <= 0.6, "{}: {mean:.3}, {most:.3}", device.name);
    }
}

/// Source: Little CMS 2 through `transicc`, with a CMYK profile of lookup tables from Debian's
/// libgs-common, which `tests/fetch_odd_files.sh` fetches.
#[test]
fn a_profile_of_tables_against_little_cms() {
    use tiff::encoder::{TiffEncoder, colortype};
    let Some(odd) = std::env::var_os("SIGHTEDGE_ODD_FILES").map(PathBuf::from) else {
        return not_run("SIGHTEDGE_ODD_FILES is not set: no profile of tables");
    };
    let profile = odd.join("profiles/default_cmyk.icc");
    let bytes = std::fs::read(&profile).unwrap();
    let path = folder("ink").join("a.tif");
    // 9^4 inks as an 81 x 81 picture.
    let step = |i: usize| u8::try_from(i * 255 / 8).unwrap();
    let inks: Vec<[u8; 4]> = (0..6561)
        .map(|i| [step(i % 9), step(i / 9 % 9), step(i / 81 % 9), step(i / 729)])
        .collect();
    let mut out = std::io::Cursor::new(Vec::new());
    let mut encoder = TiffEncoder::new(&mut out).unwrap();
    let mut image = encoder.new_image::<colortype::CMYK8>(81, 81).unwrap();
    image.encoder().write_tag(tiff::tags::Tag::IccProfile, &bytes[..]).unwrap();
    image.write_data(inks.as_flattened()).unwrap();
    std::fs::write(&path, out.into_inner()).unwrap();
    let ours = support::rgb_of(&whole(&path));
    let lines: Vec<String> = inks
        .iter()
        .map(|ink| {
            let percent = ink.map(|v| f64::from(v) / 2.55);
            format!("{} {} {} {}\n", percent[0], percent[1], percent[2], percent[3])
        })
        .collect();
    let Some(theirs) = transicc(&profile, lines.concat()) else { return };
    assert_eq!(theirs.len(), ours.len(), "one answer each");
    let (mut sum, mut most) = (0.0, 0.0f64);
    for (a, b) in ours.chunks(3).zip(theirs.chunks(3)) {
        let theirs = Lab::from_linear(
            [b[0], b[1], b[2]].map(|v| SRGB.linear((v / 255.0).clamp(0.0, 1.0))),
        );
        let de = delta_e_2000(Lab::from_srgb([a[0], a[1], a[2]]), theirs);
        sum += de;
        most = most.max(de);
    }
    let mean = sum / 6561.0;
    println!("CMYK by tables: mean {mean:.3}, largest {most:.3} from Little CMS");
    // Rounding to bytes alone makes about 0.2 on average.
    assert!(mean < 0.5 && most < 3.0, "mean {mean:.3}, largest {most:.3}");
}

fn tagged_png(path: &Path, profile: &[u8], rgb: &[u8], width: u32, height: u32) {
    let mut info = png::Info::with_size(width, height);
    info.color_type = png::ColorType::Rgb;
    info.bit_depth = png::BitDepth::Eight;
    info.icc_profile = Some(profile.into());
    let file = std::fs::File::create(path).unwrap();
    let encoder = png::Encoder::with_info(file, info).unwrap();
    encoder.write_header().unwrap().write_image_data(rgb).unwrap();
}

#[test]
fn embedded_profiles_are_honoured_named_and_forgiven() {
    let folder = folder("profiles");
    let path = folder.join("a.png");
    let rgb: Vec<u8> = [[200, 120, 90], [90, 120, 100], [128; 3], [255; 3]].concat();
    for device in [WIDE, P3, ROMM, SRGB] {
        tagged_png(&path, &device.profile(), &rgb, 4, 1);
        let facts = probe(&path, &Limits::default()).unwrap();
        assert_eq!(facts.profile, ProfileFacts::Embedded(device.name.into()), "named");
        assert_eq!(facts.findings, [], "nothing to say");
        let wanted: Vec<u8> = rgb
            .chunks(3)
            .flat_map(|p| exact(&device, [p[0], p[1], p[2]].map(|v| u16::from(v) * 257)))
            .map(|v| Lab::from_linear([SRGB.linear(v.clamp(0.0, 1.0)); 3]).to_srgb()[0])
            .collect();
        let (most, _) = difference(&support::rgb_of(&whole(&path)), &wanted);
        assert!(most <= 1, "{}: off by {most}", device.name);
    }
    let good = WIDE.profile();
    for (what, bytes) in [
        ("cut short", good[..200].to_vec()),
        ("of nonsense", vec![7; 300]),
        ("with a wild table", {
            let mut bad = good.clone();
            bad[132..300].fill(0xff);
            bad
        }),
    ] {
        tagged_png(&path, &bytes, &rgb, 4, 1);
        let preview = whole(&path);
        let told = preview.findings.iter().any(|f| matches!(f, Finding::ProfileDamaged { .. }));
        assert!(told, "a profile {what}: {:?}", preview.findings);
        assert_eq!(support::rgb_of(&preview), rgb, "a profile {what}: taken as sRGB");
    }
}

/// Every 8-bit code passes through the pipeline unchanged when nothing is to be done.
#[test]
fn srgb_bytes_pass_unchanged() {
    let folder = folder("identity");
    let path = folder.join("a.png");
    let rgb: Vec<u8> = (0..=255u8).flat_map(|v| [v, 255 - v, v.reverse_bits()]).collect();
    tagged_png(&path, &SRGB.profile(), &rgb, 256, 1);
    assert_eq!(support::rgb_of(&whole(&path)), rgb, "all 256 codes");
}
