//! Writing a preview: PNG or PPM, quickly.

use std::io::{BufWriter, Write};
use std::path::Path;

use serde::{Deserialize, Serialize};

use crate::{PictureError, Preview, Size};

/// The forms a preview is written in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub enum WriteForm {
    /// PNG, RGB or RGBA, marked as sRGB.
    Png,
    /// Binary PPM (P6); see-through parts over white.
    Ppm,
}

impl WriteForm {
    /// The form a file's name asks for.
    #[must_use]
    pub fn from_path(path: &Path) -> Option<Self> {
        let extension = path.extension()?.to_str()?.to_ascii_lowercase();
        match extension.as_str() {
            "png" => Some(Self::Png),
            "ppm" => Some(Self::Ppm),
            _ => None,
        }
    }

    /// Writes a preview in this form.
    ///
    /// # Errors
    /// What `out` says.
    pub fn write(self, preview: &Preview, out: &mut dyn Write) -> std::io::Result<()> {
        let mut out = BufWriter::with_capacity(1 << 16, out);
        match self {
            Self::Png => write_png(preview, &mut out)?,
            Self::Ppm => write_ppm(preview, &mut out)?,
        }
        out.flush()
    }
}

fn opaque(preview: &Preview) -> bool {
    preview.rgba.as_chunks::<4>().0.iter().all(|pixel| pixel[3] == 255)
}

/// Writes a PNG; fast rather than small.
///
/// # Errors
/// What `out` says.
pub fn write_png(preview: &Preview, out: &mut impl Write) -> std::io::Result<()> {
    let opaque = opaque(preview);
    let mut encoder = png::Encoder::new(out, preview.size.width, preview.size.height);
    encoder.set_color(if opaque { png::ColorType::Rgb } else { png::ColorType::Rgba });
    encoder.set_depth(png::BitDepth::Eight);
    encoder.set_compression(png::Compression::Fastest);
    encoder.set_source_srgb(png::SrgbRenderingIntent::RelativeColorimetric);
    let mut writer = encoder.write_header()?;
    if opaque {
        writer.write_image_data(&rgb(preview))?;
    } else {
        writer.write_image_data(&preview.rgba)?;
    }
    writer.finish()?;
    Ok(())
}

fn rgb(preview: &Preview) -> Vec<u8> {
    let pixels = preview.rgba.as_chunks::<4>().0;
    let mut rgb = vec![0; pixels.len() * 3];
    for (pixel, to) in pixels.iter().zip(rgb.as_chunks_mut::<3>().0) {
        *to = [pixel[0], pixel[1], pixel[2]];
    }
    rgb
}

/// Writes a binary PPM; see-through parts are laid over white, in linear light's stead by the
/// plain average that viewers use.
///
/// # Errors
/// What `out` says.
pub fn write_ppm(preview: &Preview, out: &mut impl Write) -> std::io::Result<()> {
    write!(out, "P6\n{} {}\n255\n", preview.size.width, preview.size.height)?;
    if opaque(preview) {
        return out.write_all(&rgb(preview));
    }
    let over_white = |v: u8, a: u8| {
        let sum = u32::from(v) * u32::from(a) + 255 * (255 - u32::from(a));
        u8::try_from((sum + 127) / 255).unwrap_or(u8::MAX)
    };
    let bytes: Vec<u8> = preview
        .rgba
        .as_chunks::<4>()
        .0
        .iter()
        .flat_map(|&[r, g, b, a]| [over_white(r, a), over_white(g, a), over_white(b, a)])
        .collect();
    out.write_all(&bytes)
}

/// Reads an 8-bit binary PPM (P6), as this module writes it.
///
/// # Errors
/// The file cannot be read, or is no such PPM.
pub fn read_ppm(path: &Path) -> Result<Preview, PictureError> {
    let bytes = std::fs::read(path).map_err(|e| PictureError::unreadable(path, &e))?;
    let wrong = || PictureError::NotAPicture { path: path.into() };
    let mut at = 0;
    let mut word = || {
        // Some writers put a comment line after the magic number.
        while bytes.get(at) == Some(&b'#') {
            at += bytes.get(at..)?.iter().position(|&b| b == b'\n')? + 1;
        }
        let start = at + bytes.get(at..)?.iter().position(|b| !b.is_ascii_whitespace())?;
        let length = bytes.get(start..)?.iter().position(u8::is_ascii_whitespace)?;
        at = start + length + 1;
        std::str::from_utf8(&bytes[start..start + length]).ok()
    };
    let header = [word(), word(), word(), word()].map(|w| w.map(ToString::to_string));
    let [Some(magic), Some(width), Some(height), Some(top)] = header else {
        return Err(wrong());
    };
    let (Ok(width), Ok(height)) = (width.parse(), height.parse()) else { return Err(wrong()) };
    let size = Size::new(width, height);
    let pixels = bytes.get(at..).unwrap_or_default().as_chunks::<3>().0;
    if magic != "P6" || top != "255" || u64::try_from(pixels.len()) != Ok(size.pixels()) {
        return Err(wrong());
    }
    let rgba = pixels.iter().flat_map(|&[r, g, b]| [r, g, b, 255]).collect();
    Ok(Preview { size, rgba, picture: size, findings: Vec::new() })
}
