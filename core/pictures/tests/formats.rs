//! Each format's variants against the pixels that were written.
#![allow(clippy::unwrap_used, reason = "a failing test says where")]

mod support;

use std::io::Cursor;
use std::path::Path;

use sightedge_pictures::{
    CancelToken, FileStamp, Finding, Format, Limits, Orientation, PictureError, Preview,
    Region, ResolutionSource, Size, Target, content_hash, find_moved, preview, probe,
    write_png,
};
use support::{at, difference, exif, folder, rgb_of, scene, whole};
use tiff::encoder::{Compression, Predictor, Rational, TiffEncoder, colortype};
use tiff::tags::{ResolutionUnit, Tag};

const W: u32 = 150;
const H: u32 = 97;

fn words(bytes: &[u8]) -> Vec<u16> {
    bytes.iter().map(|&v| u16::from(v) * 257).collect()
}

fn write_tiff<C: colortype::ColorType>(
    path: &Path,
    pixels: &[C::Inner],
    packing: (Compression, Predictor),
    rows: u32,
    tags: &[(Tag, u16)],
) where
    [C::Inner]: tiff::encoder::TiffValue,
{
    let mut out = Cursor::new(Vec::new());
    let mut encoder = TiffEncoder::new(&mut out)
        .unwrap()
        .with_compression(packing.0)
        .with_predictor(packing.1);
    let mut image = encoder.new_image::<C>(W, H).unwrap();
    image.rows_per_strip(rows).unwrap();
    image.resolution(ResolutionUnit::Centimeter, Rational { n: 100, d: 1 });
    for &(tag, value) in tags {
        image.encoder().write_tag(tag, value).unwrap();
    }
    image.write_data(pixels).unwrap();
    std::fs::write(path, out.into_inner()).unwrap();
}

/// Source: the pixels that were written; the reader of plain strips is ours, the rest is read by
/// the crate that wrote it.
#[test]
fn tiff_comes_back_exactly() {
    let folder = folder("tiff");
    let rgb = scene(150, 97);
    let grey: Vec<u8> = rgb.chunks(3).map(|p| p[0]).collect();
    let packings = [
        ("plain", Compression::Uncompressed, Predictor::None),
        ("lzw", Compression::Lzw, Predictor::None),
        ("lzw-differences", Compression::Lzw, Predictor::Horizontal),
        ("deflate", Compression::Deflate(tiff::encoder::DeflateLevel::Fast), Predictor::None),
        (
            "deflate-differences",
            Compression::Deflate(tiff::encoder::DeflateLevel::Fast),
            Predictor::Horizontal,
        ),
        ("packbits", Compression::Packbits, Predictor::None),
    ];
    for (name, compression, predictor) in packings {
        for rows in [1, 10, 97] {
            let packing = (compression, predictor);
            let path = folder.join(format!("{name}-{rows}.tif"));
            write_tiff::<colortype::RGB8>(&path, &rgb, packing, rows, &[]);
            assert_eq!(rgb_of(&whole(&path)), rgb, "{name}, {rows} rows a strip, RGB 8");
            write_tiff::<colortype::RGB16>(&path, &words(&rgb), packing, rows, &[]);
            assert_eq!(rgb_of(&whole(&path)), rgb, "{name}, {rows} rows a strip, RGB 16");
            write_tiff::<colortype::Gray8>(&path, &grey, packing, rows, &[]);
            let back: Vec<u8> = whole(&path).rgba.chunks(4).map(|p| p[0]).collect();
            assert_eq!(back, grey, "{name}, {rows} rows a strip, grey 8");
        }
    }
    let path = folder.join("facts.tif");
    let plain = (Compression::Uncompressed, Predictor::None);
    write_tiff::<colortype::RGB8>(&path, &rgb, plain, 10, &[(Tag::Orientation, 8)]);
    let facts = probe(&path, &Limits::default()).unwrap();
    assert_eq!((facts.format, facts.pixels), (Format::Tiff, Size::new(H, W)), "turned");
    let resolution = facts.resolution.unwrap();
    assert!((resolution.x_ppi - 254.0).abs() < 1e-9, "100 a centimetre: {resolution:?}");
    assert_eq!(resolution.source, ResolutionSource::Tiff, "by TIFF's tags");
    assert_eq!(facts.findings, [Finding::Untagged], "nothing else to say");
}

/// Deflated data ends with a checksum of 4 bytes. Source: RFC 1950, 2.2.
#[test]
fn a_wrong_checksum_loses_nothing() {
    let path = folder("tiff-checksum").join("a.tif");
    let rgb = scene(150, 97);
    let deflate = Compression::Deflate(tiff::encoder::DeflateLevel::Fast);
    write_tiff::<colortype::RGB8>(&path, &rgb, (deflate, Predictor::None), 97, &[]);
    let mut bytes = std::fs::read(&path).unwrap();
    let mut tags = tiff::decoder::Decoder::new(Cursor::new(&bytes)).unwrap();
    let start = tags.get_tag_u32(Tag::StripOffsets).unwrap();
    let length = tags.get_tag_u32(Tag::StripByteCounts).unwrap();
    let last = usize::try_from(start + length - 1).unwrap();
    bytes[last] ^= 0x55;
    std::fs::write(&path, &bytes).unwrap();
    let shown = whole(&path);
    assert_eq!(rgb_of(&shown), rgb, "all pixels are there");
    assert!(
        !shown.findings.iter().any(|f| matches!(f, Finding::Incomplete { .. })),
        "and good"
    );
}

/// Channels beside the colours, as a saved selection leaves them, change nothing, whichever way
/// the file is packed.
#[test]
fn samples_beyond_the_colours_are_left_out() {
    let path = folder("tiff-extra").join("a.tif");
    let rgb = scene(150, 97);
    let four: Vec<u8> = rgb.chunks(3).flat_map(|p| [p[0], p[1], p[2], p[0] / 2]).collect();
    let extra = [(Tag::ExtraSamples, 0)];
    for (name, compression) in [("plain", Compression::Uncompressed), ("LZW", Compression::Lzw)]
    {
        for predictor in [Predictor::None, Predictor::Horizontal] {
            let packing = (compression, predictor);
            write_tiff::<colortype::RGBA8>(&path, &four, packing, 10, &extra);
            assert_eq!(rgb_of(&whole(&path)), rgb, "{name}, {predictor:?}, 8 bits");
            write_tiff::<colortype::RGBA16>(&path, &words(&four), packing, 10, &extra);
            assert_eq!(rgb_of(&whole(&path)), rgb, "{name}, {predictor:?}, 16 bits");
        }
    }
}

/// Black and white by turns are as light as half of white, which sRGB writes as 188; a mean of
/// what is written, 127 or 128, is far too dark.
/// Source: IEC 61966-2-1, the sRGB curve: 0.5 is 0.7354, times 255.
#[test]
fn fine_detail_keeps_its_light() {
    let folder = folder("checkerboard");
    let (w, h) = (1200u32, 1200u32);
    let grey: Vec<u8> =
        (0..w * h).map(|i| if (i % w + i / w) % 2 == 0 { 255 } else { 0 }).collect();
    let jpeg = folder.join("a.jpg");
    let mut out = Vec::new();
    let encoder = jpeg_encoder::Encoder::new(&mut out, 100);
    encoder.encode(&grey, 1200, 1200, jpeg_encoder::ColorType::Luma).unwrap();
    std::fs::write(&jpeg, out).unwrap();
    let png = folder.join("a.png");
    let mut encoder = png::Encoder::new(std::fs::File::create(&png).unwrap(), w, h);
    encoder.set_color(png::ColorType::Grayscale);
    encoder.write_header().unwrap().write_image_data(&grey).unwrap();
    let tiff = folder.join("a.tif");
    let mut out = Cursor::new(Vec::new());
    let mut encoder = TiffEncoder::new(&mut out).unwrap();
    encoder.write_image::<colortype::Gray16>(w, h, &words(&grey)).unwrap();
    std::fs::write(&tiff, out.into_inner()).unwrap();
    let rgb: Vec<u8> = grey.iter().flat_map(|&v| [v; 3]).collect();
    let mut out = Vec::new();
    let encoder = image_webp::WebPEncoder::new(&mut out);
    encoder.encode(&rgb, w, h, image_webp::ColorType::Rgb8).unwrap();
    let webp = folder.join("a.webp");
    std::fs::write(&webp, out).unwrap();
    for path in [&jpeg, &png, &tiff, &webp] {
        for side in [600, 400, 333, 300, 150, 75] {
            let shown = at(path, Target::Longest(side));
            let all = shown.rgba.as_chunks::<4>().0.iter().map(|p| u32::from(p[0]));
            let mean = f64::from(all.sum::<u32>()) / f64::from(side * side);
            assert!((mean - 187.5).abs() < 1.0, "{} at {side}: {mean}", path.display());
        }
    }
}

#[test]
fn opacity_multiplied_in_is_divided_out() {
    let folder = folder("tiff-opacity");
    let path = folder.join("a.tif");
    let pixel = [100u8, 50, 25, 128];
    let rgba: Vec<u8> = pixel.repeat(150 * 97);
    let plain = (Compression::Uncompressed, Predictor::None);
    for (kind, wanted) in [(2u16, [100, 50, 25, 128]), (1, [199, 99, 49, 128])] {
        write_tiff::<colortype::RGBA8>(&path, &rgba, plain, 50, &[(Tag::ExtraSamples, kind)]);
        let preview = whole(&path);
        assert!(difference(&preview.rgba[..4], &wanted).0 <= 1, "kind {kind}");
        assert!(preview.findings.contains(&Finding::Transparency), "and said");
    }
}

#[test]
fn png_comes_back_exactly() {
    let folder = folder("png");
    let rgb = scene(150, 97);
    let path = folder.join("a.png");
    let write = |colour, depth, data: &[u8]| {
        let file = std::fs::File::create(&path).unwrap();
        let mut encoder = png::Encoder::new(file, W, H);
        encoder.set_color(colour);
        encoder.set_depth(depth);
        let (xppu, yppu) = (11811, 11811);
        let unit = png::Unit::Meter;
        encoder.set_pixel_dims(Some(png::PixelDimensions { xppu, yppu, unit }));
        encoder.write_header().unwrap().write_image_data(data).unwrap();
    };
    write(png::ColorType::Rgb, png::BitDepth::Eight, &rgb);
    assert_eq!(rgb_of(&whole(&path)), rgb, "8 bits");
    let facts = probe(&path, &Limits::default()).unwrap();
    let ppi = facts.resolution.unwrap().x_ppi;
    assert!((ppi - 299.9994).abs() < 1e-3, "11811 a metre are {ppi} an inch");
    let wide: Vec<u8> = words(&rgb).iter().flat_map(|v| v.to_be_bytes()).collect();
    write(png::ColorType::Rgb, png::BitDepth::Sixteen, &wide);
    assert_eq!(rgb_of(&whole(&path)), rgb, "16 bits");
    assert_eq!(probe(&path, &Limits::default()).unwrap().bits, 16, "and said");
    let rgba: Vec<u8> = rgb.chunks(3).flat_map(|p| [p[0], p[1], p[2], p[1] | 128]).collect();
    write(png::ColorType::Rgba, png::BitDepth::Eight, &rgba);
    let (most, mean) = difference(&whole(&path).rgba, &rgba);
    assert!(most <= 1 && mean < 0.01, "with opacity: {most}, {mean}");
}

#[test]
fn webp_comes_back_exactly() {
    let folder = folder("webp");
    let rgb = scene(150, 97);
    let mut out = Vec::new();
    let mut encoder = image_webp::WebPEncoder::new(&mut out);
    encoder.set_exif_metadata(exif(3, 240, &[]));
    encoder.encode(&rgb, W, H, image_webp::ColorType::Rgb8).unwrap();
    let path = folder.join("a.webp");
    std::fs::write(&path, out).unwrap();
    let back: Vec<u8> = rgb_of(&whole(&path));
    let turned: Vec<u8> = rgb.chunks(3).rev().flatten().copied().collect();
    assert_eq!(back, turned, "turned by half, as its EXIF says");
    let facts = probe(&path, &Limits::default()).unwrap();
    assert_eq!(facts.orientation, Orientation::Half, "and said");
    assert!((facts.resolution.unwrap().x_ppi - 240.0).abs() < 1e-9, "its resolution");
}

/// Source: CIPA DC-008 (EXIF 2.32), the orientation tag's figure: the place of the stored first
/// row and first column in the picture shown.
#[test]
fn all_eight_orientations() {
    let folder = folder("orientation");
    let path = folder.join("a.tif");
    let mut rgb = vec![0u8; 150 * 97 * 3];
    // Red in the stored top left corner, green top right, blue bottom left.
    let mut mark = |x0: usize, y0: usize, channel: usize| {
        for y in y0..y0 + 10 {
            for x in x0..x0 + 10 {
                rgb[(y * 150 + x) * 3 + channel] = 255;
            }
        }
    };
    mark(0, 0, 0);
    mark(140, 0, 1);
    mark(0, 87, 2);
    // Where red, green, blue are to be seen: (right?, bottom?).
    let cases = [
        (1, [(0, 0), (1, 0), (0, 1)]),
        (2, [(1, 0), (0, 0), (1, 1)]),
        (3, [(1, 1), (0, 1), (1, 0)]),
        (4, [(0, 1), (1, 1), (0, 0)]),
        (5, [(0, 0), (0, 1), (1, 0)]),
        (6, [(1, 0), (1, 1), (0, 0)]),
        (7, [(1, 1), (1, 0), (0, 1)]),
        (8, [(0, 1), (0, 0), (1, 1)]),
    ];
    for (tag, corners) in cases {
        let plain = (Compression::Uncompressed, Predictor::None);
        write_tiff::<colortype::RGB8>(&path, &rgb, plain, 20, &[(Tag::Orientation, tag)]);
        let shown = whole(&path);
        let (w, h) = (shown.size.width, shown.size.height);
        assert_eq!(w > h, tag < 5, "orientation {tag} exchanges the sides or not");
        for (channel, (right, bottom)) in corners.into_iter().enumerate() {
            let x = if right == 1 { w - 5 } else { 4 };
            let y = if bottom == 1 { h - 5 } else { 4 };
            let pixel = usize::try_from(y * w + x).unwrap() * 4;
            assert_eq!(shown.rgba[pixel + channel], 255, "orientation {tag}, mark {channel}");
            // A part is cut out of the picture as shown, too.
            let region = Region {
                left: f64::from(x - 2),
                top: f64::from(y - 2),
                width: 4.0,
                height: 4.0,
            };
            let part = at(&path, Target::Part(region, Size::new(2, 2)));
            assert!(part.rgba[channel] > 240, "orientation {tag}, mark {channel} cut out");
        }
    }
}

#[test]
fn sizes_are_exact_and_never_enlarged() {
    let folder = folder("sizes");
    let path = folder.join("a.png");
    let rgba: Vec<u8> =
        scene(300, 200).chunks(3).flat_map(|p| [p[0], p[1], p[2], 255]).collect();
    let size = Size::new(300, 200);
    write_png(
        &Preview { size, rgba, picture: size, findings: vec![] },
        &mut std::fs::File::create(&path).unwrap(),
    )
    .unwrap();
    for wanted in [Size::new(1, 1), Size::new(123, 77), Size::new(300, 1), Size::new(299, 200)]
    {
        let got = at(&path, Target::Exact(wanted));
        assert_eq!(got.size, wanted, "exactly");
        assert_eq!(u64::try_from(got.rgba.len()), Ok(wanted.pixels() * 4), "all of it");
    }
    let asked = Size::new(600, 100);
    let got = at(&path, Target::Exact(asked));
    assert_eq!(got.size, Size::new(300, 100), "not wider than it is");
    let said = Finding::NotEnlarged { asked, given: got.size };
    assert!(got.findings.contains(&said), "{:?}", got.findings);
    let got = at(&path, Target::Longest(4000));
    assert_eq!(got.size, size, "at its own size");
    let told = got.findings.iter().any(|f| matches!(f, Finding::NotEnlarged { .. }));
    assert!(told, "and said");
}

#[test]
fn formats_that_are_not_opened_say_what_to_export() {
    let folder = folder("not-opened");
    let cases: [(&str, &[u8], &str); 7] = [
        ("a.heic", b"\0\0\0\x18ftypheic\0\0\0\0mif1", "HEIC"),
        ("a.avif", b"\0\0\0\x1cftypavif\0\0\0\0avif", "AVIF"),
        ("a.psd", b"8BPS\0\x01\0\0\0\0\0\0", "PSD"),
        ("a.nef", b"MM\0*\0\0\0\x08", "camera raw"),
        ("a.cr3", b"\0\0\0\x18ftypcrx \0\0\0\x01", "camera raw"),
        ("a.pdf", b"%PDF-1.7\n", "PDF"),
        ("a.jp2", b"\0\0\0\x0cjP  \r\n\x87\n", "JPEG 2000"),
    ];
    // Which is opened in packages.
    let jxl: (&str, &[u8], &str) = ("a.jxl", b"\xff\x0a\0\0", "JPEG XL");
    let jxl = (!cfg!(feature = "jxl")).then_some(jxl);
    for (name, bytes, format) in cases.into_iter().chain(jxl) {
        let path = folder.join(name);
        std::fs::write(&path, bytes).unwrap();
        let error = probe(&path, &Limits::default()).unwrap_err();
        let text = error.to_string();
        assert!(matches!(error, PictureError::NeedsExport { .. }), "{name}: {text}");
        assert!(
            text.contains(format) && (text.contains("export") || text.contains("save")),
            "{text}"
        );
    }
    for (name, wanted) in [
        (
            "a.heic",
            "a HEIC picture: export it as a full-size JPEG at high quality, or as a 16-bit \
             TIFF, with its colour profile embedded",
        ),
        (
            "a.avif",
            "an AVIF picture: export it as a full-size JPEG at high quality, or as a 16-bit \
             TIFF, with its colour profile embedded",
        ),
        (
            "a.psd",
            "a PSD document: save a flattened copy as a 16-bit TIFF with its colour profile \
             embedded",
        ),
        (
            "a.nef",
            "a camera raw file: develop it in your raw converter and export a 16-bit TIFF or \
             a full-size JPEG with its colour profile embedded",
        ),
    ] {
        let path = folder.join(name);
        let error = probe(&path, &Limits::default()).unwrap_err();
        assert_eq!(error.to_string(), format!("{} is {wanted}", path.display()), "{name}");
    }
    let path = folder.join("a.jpg");
    std::fs::write(&path, b"Not a picture at all.").unwrap();
    assert_eq!(
        probe(&path, &Limits::default()).unwrap_err().to_string(),
        format!(
            "{} is no picture this program opens: use a JPEG, TIFF, PNG or WebP file",
            path.display()
        ),
        "what it is, what is wanted"
    );
}

#[test]
fn limits_are_named_in_errors() {
    let folder = folder("limits");
    let path = folder.join("a.png");
    let rgba: Vec<u8> =
        scene(300, 200).chunks(3).flat_map(|p| [p[0], p[1], p[2], 255]).collect();
    let size = Size::new(300, 200);
    write_png(
        &Preview { size, rgba, picture: size, findings: vec![] },
        &mut std::fs::File::create(&path).unwrap(),
    )
    .unwrap();
    let open = |limits| preview(&path, Target::Longest(99), &limits, &CancelToken::default());
    let few = open(Limits { pixels: 59_999, ..Limits::default() });
    assert_eq!(
        few.unwrap_err().to_string(),
        "the picture has 300 x 200 pixels (0 MP); at most 0 MP are opened here: export a \
         smaller copy",
        "pixels"
    );
    let little = open(Limits { memory: 1000, ..Limits::default() });
    assert!(matches!(little, Err(PictureError::TooMuchMemory { .. })), "{little:?}");
    let hasty = open(Limits { time: std::time::Duration::ZERO, ..Limits::default() });
    assert!(matches!(hasty, Err(PictureError::TooSlow { .. })), "{hasty:?}");
}

/// Source: FIPS 180-4's example, the hash of "abc".
#[test]
fn a_moved_picture_is_found_again() {
    let folder = folder("moved");
    let token = CancelToken::default();
    let path = folder.join("a.bin");
    std::fs::write(&path, "abc").unwrap();
    let hash = content_hash(&path, &token).unwrap();
    let text = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad";
    assert_eq!(hash.to_string(), text, "as published");
    assert_eq!(text.parse(), Ok(hash), "and back");
    let stamp = FileStamp::of(&path);
    std::fs::rename(&path, folder.join("b.bin")).unwrap();
    std::fs::write(folder.join("0.bin"), "abd").unwrap();
    assert_eq!(FileStamp::of(&path), None, "it is gone");
    let found = find_moved(hash, 3, &folder, &token).unwrap();
    assert_eq!(found, Some(folder.join("b.bin")), "found by what it holds");
    std::fs::write(folder.join("b.bin"), "abcd").unwrap();
    assert_ne!(FileStamp::of(&folder.join("b.bin")), stamp, "replaced, and noticed");
    assert_eq!(find_moved(hash, 3, &folder, &token), Ok(None), "nothing else will do");
}
