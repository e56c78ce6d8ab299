use super::*;
use crate::drawing::{Band, Fill, Shade, Tone};
use crate::geometry::{Sides, Size};
use crate::layout::{Figures, layout};
use crate::length::Length;
use crate::material::Colour;
use crate::plates::{Look, front};
use crate::sample::{plain, reference};
use crate::spec::Document;

/// A picture of one colour.
fn plainly(colour: [u8; 3]) -> impl FnMut(WorkId, u32, u32) -> Option<Pixels> {
    move |_, width, height| {
        let [red, green, blue] = colour;
        let rgba = [red, green, blue, 255].repeat((width * height) as usize);
        Some(Pixels { width, height, rgba })
    }
}

fn figures(document: &Document) -> Figures {
    layout(document, &document.variants[0].mat).exact
}

fn painted(document: &Document, width: u32) -> Pixels {
    let drawing = front(&document.variants[0].mat, &figures(document), &Look::default());
    paint(&drawing, width, &mut plainly([20, 60, 120])).unwrap()
}

impl Pixels {
    fn at(&self, x: usize, y: usize) -> [u8; 3] {
        let start = (y * self.width as usize + x) * 4;
        [self.rgba[start], self.rgba[start + 1], self.rgba[start + 2]]
    }

    /// The line of pixels across (or down) the middle of the picture.
    fn line(&self, across: bool) -> Vec<[u8; 3]> {
        let (width, height) = (self.width as usize, self.height as usize);
        if across {
            (0..width).map(|x| self.at(x, height / 2)).collect()
        } else {
            (0..height).map(|y| self.at(width / 2, y)).collect()
        }
    }
}

/// How far from `wanted` the nearest place lies where colours along `line` change clearly;
/// places lie between pixels.
fn off(line: &[[u8; 3]], wanted: f64) -> f64 {
    let clear = |pair: &[[u8; 3]]| {
        let parts = pair[0].iter().zip(&pair[1]);
        parts.map(|(a, b)| a.abs_diff(*b)).max().unwrap_or(0) >= 24
    };
    let places = line.windows(2).enumerate().filter(|(_, pair)| clear(pair));
    places.map(|(at, _)| (at as f64 + 1.0 - wanted).abs()).fold(f64::INFINITY, f64::min)
}

/// Source: the reference piece (D); its parts in colours that can be told apart.
#[test]
fn edges_lie_where_the_figures_say() {
    let mut document = reference();
    let layers = &mut document.variants[0].mat.layers;
    layers[0].board.colour = Colour::new(60, 90, 70);
    layers[1].board.colour = Colour::new(150, 70, 60);
    let look = Look { paper: Colour::new(220, 190, 90), ..Look::default() };
    let figures = figures(&document);
    let drawing = front(&document.variants[0].mat, &figures, &look);
    let window = &figures.openings[0];
    for width in [600, 1000, 1600] {
        let pixels = paint(&drawing, width, &mut plainly([20, 60, 120])).unwrap();
        let scale = f64::from(width) / drawing.bounds.size.width.to_mm();
        for (name, rect) in [
            ("outer", Rect::at_origin(figures.outer)),
            ("top face", window.layers[0].face.bounds),
            ("top sight", window.layers[0].sight.bounds),
            ("undermat face", window.layers[1].face.bounds),
            ("undermat sight", window.layers[1].sight.bounds),
            ("image", window.image),
        ] {
            let Point { x, y } = drawing.bounds.at;
            let (across, down) = (pixels.line(true), pixels.line(false));
            for (line, edge) in [
                (&across, rect.left() - x),
                (&across, rect.right() - x),
                (&down, rect.top() - y),
                (&down, rect.bottom() - y),
            ] {
                let off = off(line, edge.to_mm() * scale);
                assert!(off <= 1.0, "{name} at {width}: {off} px off");
            }
        }
        // That such a place is found is no accident: in the plain board there is none.
        let between = (window.layers[0].face.bounds.left().halves().0 - drawing.bounds.left())
            .to_mm()
            * scale;
        assert!(off(&pixels.line(true), between) > 10.0, "the board is plain");
    }
}

/// The board of the reference piece, black, so that its bevels stand out.
#[test]
fn bevels_are_brightest_at_the_bottom() {
    let mut document = reference();
    document.variants[0].mat.layers.truncate(1);
    document.variants[0].mat.layers[0].board.colour = Colour::new(30, 30, 30);
    let pixels = painted(&document, 1600);
    let drawing = front(&document.variants[0].mat, &figures(&document), &Look::default());
    let scale = 1600.0 / drawing.bounds.size.width.to_mm();
    let cut = figures(&document).openings[0].layers[0].clone();
    let half = cut.bevel.halves().0;
    let Point { x, y } = drawing.bounds.at;
    let px = |at: Length| (at.to_mm() * scale) as usize;
    let face = cut.face.bounds;
    let (middle_x, middle_y) = (pixels.width as usize / 2, pixels.height as usize / 2);
    let [top, left, right, bottom] = [
        pixels.at(middle_x, px(face.top() + half - y)),
        pixels.at(px(face.left() + half - x), middle_y),
        pixels.at(px(face.right() - half - x), middle_y),
        pixels.at(middle_x, px(face.bottom() - half - y)),
    ]
    .map(|colour| colour[1]);
    assert!(30 < top && top < left && left < right && right <= bottom, "{top} {left} {right}");
    assert!(bottom > right || bottom == 255, "{right} {bottom}");
}

fn square(mm: i64) -> Rect {
    Rect::at_origin(Size::new(Length::mm(mm), Length::mm(mm)))
}

#[test]
fn mitres_have_no_seam() {
    // Face and bevels all of one colour on a ground of another: nothing of it shines through.
    let tone = Tone::from(Colour::new(137, 137, 137));
    let (face, sight) = (square(20).inset(Sides::all(Length::um(3_300))), Length::um(2_100));
    let sight = face.inset(Sides::all(sight));
    let corner = |rect: Rect| rect.path().points;
    let (outer, inner) = (corner(face), corner(sight));
    let bevels = (0..4_usize).map(|n| {
        let next = (n + 1) % 4;
        let corners = [outer[n], outer[next], inner[next], inner[n]];
        crate::drawing::BevelFace { corners, tone }
    });
    let cutout = crate::drawing::Cutout {
        face: face.path(),
        sight: sight.path(),
        bevels: bevels.collect(),
    };
    let board =
        crate::drawing::Board { outline: square(20).path(), tone, windows: vec![cutout] };
    let items = vec![Item::Board(board)];
    let drawing = Drawing { bounds: square(20), ground: Some(Tone::grey(1.0)), items };
    let pixels = paint(&drawing, 61, &mut |_, _, _| None).unwrap();
    let grey = tone.colour().red;
    let line: Vec<u8> = (0..17).map(|n| pixels.at(n, n)[0]).chain([grey]).collect();
    let open = (5.4_f64 * 61.0 / 20.0) as usize;
    assert!(line[..open].iter().all(|value| *value == grey), "{line:?} up to {open}");
    assert_eq!(pixels.at(30, 30), [255; 3], "the ground in the window");
}

#[test]
fn shade_never_lightens() {
    let band = |strength| Band { reach: Length::mm(9), strength, falloff: 1.7 };
    for colour in [[255, 255, 255], [128, 3, 77], [0, 0, 0]] {
        let tone = Tone::from(Colour::new(colour[0], colour[1], colour[2]));
        let fill = Fill::rect(square(20), tone);
        let bands = Sides::new(band(0.4), band(0.01), band(0.0), band(1.0));
        let shade = Item::Shade(Shade { edge: square(18), bands });
        let shadow = Item::Shadow(crate::drawing::Shadow { of: square(4), band: band(0.3) });
        let drawing =
            Drawing { bounds: square(20), ground: None, items: vec![fill, shade, shadow] };
        let pixels = paint(&drawing, 90, &mut |_, _, _| None).unwrap();
        for pixel in pixels.rgba.chunks_exact(4) {
            for (part, plain) in pixel.iter().zip(colour) {
                assert!(*part <= plain, "{pixel:?} from {colour:?}");
            }
        }
    }
}

#[test]
fn pictures_keep_their_colours_to_the_byte() {
    let document = reference();
    let (figures, mut asked) = (figures(&document), Vec::new());
    let drawing = front(&document.variants[0].mat, &figures, &Look::default());
    let mut source = |work, width: u32, height: u32| {
        asked.push((work, width, height));
        let rgba =
            (0..width * height).flat_map(|n| [(n % 251) as u8, (n / 7 % 256) as u8, 9, 0]);
        Some(Pixels { width, height, rgba: rgba.collect() })
    };
    let pixels = paint(&drawing, 1000, &mut source).unwrap();
    let [(_, width, height)] = asked[..] else { panic!("asked once: {asked:?}") };
    let image = figures.openings[0].image;
    let scale = 1000.0 / drawing.bounds.size.width.to_mm();
    assert!((f64::from(width) - image.size.width.to_mm() * scale).abs() < 2.0, "{width}");
    assert!((f64::from(height) - image.size.height.to_mm() * scale).abs() < 2.0, "{height}");
    let left = ((image.left() - drawing.bounds.left()).to_mm() * scale).floor() as u32;
    let top = ((image.top() - drawing.bounds.top()).to_mm() * scale).floor() as u32;
    for (x, y) in [(200, 300), (201, 300), (width / 2, height / 2)] {
        let n = y * width + x;
        let wanted = [(n % 251) as u8, (n / 7 % 256) as u8, 9];
        let found = pixels.at((left + x) as usize, (top + y) as usize);
        assert_eq!(found, wanted, "{x}, {y}");
    }
}

#[test]
fn equal_drawings_give_equal_pixels() {
    let first = painted(&reference(), 333);
    assert_eq!(first, painted(&reference(), 333), "the same bytes");
    assert!(first.rgba.chunks_exact(4).all(|pixel| pixel[3] == 255), "nothing shines through");
}

#[test]
fn without_a_picture_a_quiet_grey() {
    let document = plain("8x10");
    let drawing = front(&document.variants[0].mat, &figures(&document), &Look::default());
    let pixels = paint(&drawing, 200, &mut |_, _, _| None).unwrap();
    let [red, green, blue] = pixels.at(100, pixels.height as usize / 2);
    assert!(red == green && green == blue && (120..235).contains(&red), "{red} {green} {blue}");
    let short = |_, width, height| Some(Pixels { width, height, rgba: vec![1; 7] });
    let same = paint(&drawing, 200, &mut { short }).unwrap();
    assert_eq!(same, pixels, "a picture with bytes missing is none");
}

#[test]
fn nonsense_is_painted_or_refused() {
    for document in crate::plates::nonsense() {
        let drawing = front(&document.variants[0].mat, &figures(&document), &Look::default());
        for over in [crate::plates::hidden(&figures(&document)), Drawing::default()] {
            let drawing = drawing.clone().under(over);
            match paint(&drawing, 60, &mut plainly([9, 9, 9])) {
                Ok(pixels) => assert_eq!(pixels.width, 60, "as asked"),
                Err(error) => assert!(error.to_string().contains(": "), "{error}"),
            }
        }
    }
}

#[test]
fn sizes_that_cannot_be_painted() {
    let drawing = Drawing { bounds: square(20), ..Drawing::default() };
    let refused = |drawing: &Drawing, width| paint(drawing, width, &mut |_, _, _| None);
    assert_eq!(
        refused(&drawing, 0),
        Err(RasterError::Size { width: 0, height: 1 }),
        "no pixels"
    );
    let error = refused(&drawing, 50_000).unwrap_err().to_string();
    assert_eq!(
        error,
        "a picture of 50000 × 50000 pixels is too large or has no size: ask for up to 400 \
         million pixels in all, such as 2000 across"
    );
    assert_eq!(refused(&Drawing::default(), 10), Err(RasterError::Empty), "no size");
}
