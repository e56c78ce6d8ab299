//! What EXIF says: orientation, resolution, a small picture.

use exif::{Exif, In, Tag, Value};

use super::header::Header;
use crate::size::{Resolution, ResolutionSource};
use crate::{Finding, Orientation};

/// Reads a block of EXIF data (from its TIFF header on) into `header`. What cannot be read is a
/// finding; what `header` already holds stays, except the orientation.
pub(crate) fn read_into(header: &mut Header, block: &[u8], source: ResolutionSource) {
    let mut reader = exif::Reader::new();
    reader.continue_on_error(true);
    let exif = match reader.read_raw(block.to_vec()) {
        Ok(exif) => exif,
        Err(error) => match error.distill_partial_result(|_| {}) {
            Ok(exif) => exif,
            Err(error) => {
                header.findings.push(Finding::MetadataDamaged { detail: error.to_string() });
                return;
            }
        },
    };
    if let Some(value) = unsigned(&exif, Tag::Orientation, In::PRIMARY) {
        match Orientation::from_tag(value) {
            Some(orientation) => header.orientation = orientation,
            // 0 is what some writers leave for 'not known'.
            None if value == 0 => {}
            None => header.findings.push(Finding::OrientationUnknown { value }),
        }
    }
    if let Some(stated) = resolution(&exif, source) {
        header.state_resolution(stated);
    }
    if header.thumbnail.is_none() {
        header.thumbnail = thumbnail(&exif);
    }
}

fn unsigned(exif: &Exif, tag: Tag, ifd: In) -> Option<u32> {
    exif.get_field(tag, ifd)?.value.get_uint(0)
}

fn resolution(exif: &Exif, source: ResolutionSource) -> Option<Resolution> {
    let number = |tag| match &exif.get_field(tag, In::PRIMARY)?.value {
        Value::Rational(v) => v.first().map(exif::Rational::to_f64),
        _ => None,
    };
    // 2 is inches, also when left out; 3 centimetres; 1 says that no unit is meant.
    let per_inch = match unsigned(exif, Tag::ResolutionUnit, In::PRIMARY) {
        None | Some(2) => 1.0,
        Some(3) => 2.54,
        Some(_) => return None,
    };
    let x = number(Tag::XResolution)?;
    let y = number(Tag::YResolution).unwrap_or(x);
    // Cameras write 72 where no resolution is meant. Source: CIPA DC-008 (EXIF 2.32), 4.6.4:
    // "when the image resolution is unknown, 72 [dpi] shall be designated".
    if [x, y].iter().all(|v| (v * per_inch - 72.0).abs() < 1e-9) {
        return None;
    }
    Resolution::sane(x * per_inch, y * per_inch, source)
}

fn thumbnail(exif: &Exif) -> Option<Vec<u8>> {
    let at = |tag| usize::try_from(unsigned(exif, tag, In::THUMBNAIL)?).ok();
    let start = at(Tag::JPEGInterchangeFormat)?;
    let length = at(Tag::JPEGInterchangeFormatLength)?;
    let bytes = exif.buf().get(start..start.checked_add(length)?)?;
    bytes.starts_with(b"\xff\xd8\xff").then(|| bytes.to_vec())
}
