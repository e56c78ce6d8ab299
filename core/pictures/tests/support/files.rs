//! Small sound files of each format, and a generator of repeatable numbers to damage them with.

use std::io::Cursor;

use jpeg_encoder::{ColorType, Encoder, SamplingFactor};
use tiff::encoder::{Compression, Predictor, TiffEncoder, colortype};

use super::{exif, icc, scene};

/// A small generator of repeatable numbers.
pub(crate) struct Dice(pub(crate) u64);

impl Dice {
    pub(crate) fn roll(&mut self, sides: usize) -> usize {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1);
        usize::try_from(self.0 >> 33).unwrap() % sides.max(1)
    }
    pub(crate) fn byte(&mut self) -> u8 {
        self.roll(256).to_le_bytes()[0]
    }
}

pub(crate) fn jpeg(progressive: bool, colour: ColorType, restart: u16) -> Vec<u8> {
    let mut out = Vec::new();
    let mut encoder = Encoder::new(&mut out, 80);
    encoder.set_sampling_factor(SamplingFactor::F_2_2);
    encoder.set_progressive(progressive);
    if restart > 0 {
        encoder.set_restart_interval(restart);
    }
    encoder.add_icc_profile(&icc::WIDE.profile()).unwrap();
    encoder.add_exif_metadata(&exif(6, 300, b"\xff\xd8\xff\xe0 no picture")).unwrap();
    let rgb = scene(40, 30);
    let pixels: Vec<u8> = match colour {
        ColorType::Cmyk => rgb.chunks(3).flat_map(|p| [p[0], p[1], p[2], 9]).collect(),
        ColorType::Luma => rgb.chunks(3).map(|p| p[0]).collect(),
        _ => rgb,
    };
    encoder.encode(&pixels, 40, 30, colour).unwrap();
    out
}

pub(crate) fn tiff_file<C: colortype::ColorType>(
    pixels: &[C::Inner],
    compression: Compression,
    predictor: Predictor,
) -> Vec<u8>
where
    [C::Inner]: tiff::encoder::TiffValue,
{
    let mut out = Cursor::new(Vec::new());
    let encoder = TiffEncoder::new(&mut out).unwrap();
    let mut encoder = encoder.with_compression(compression).with_predictor(predictor);
    let mut image = encoder.new_image::<C>(40, 30).unwrap();
    image.rows_per_strip(7).unwrap();
    image.write_data(pixels).unwrap();
    out.into_inner()
}

pub(crate) fn png_file() -> Vec<u8> {
    let mut out = Vec::new();
    let mut info = png::Info::with_size(40, 30);
    info.color_type = png::ColorType::Rgb;
    info.bit_depth = png::BitDepth::Eight;
    info.icc_profile = Some(icc::P3.profile().into());
    let encoder = png::Encoder::with_info(&mut out, info).unwrap();
    encoder.write_header().unwrap().write_image_data(&scene(40, 30)).unwrap();
    out
}

pub(crate) fn webp_file() -> Vec<u8> {
    let mut out = Vec::new();
    let mut encoder = image_webp::WebPEncoder::new(&mut out);
    encoder.set_exif_metadata(exif(8, 240, &[]));
    encoder.encode(&scene(40, 30), 40, 30, image_webp::ColorType::Rgb8).unwrap();
    out
}

/// A JPEG XL of one colour depth, without loss.
#[cfg(feature = "jxl")]
pub(crate) fn jxl_file() -> Vec<u8> {
    use zune_core::bit_depth::BitDepth;
    use zune_core::colorspace::ColorSpace;
    use zune_core::options::EncoderOptions;

    let options = EncoderOptions::new(40, 30, ColorSpace::RGB, BitDepth::Eight);
    let mut out = Vec::new();
    let rgb = scene(40, 30);
    zune_jpegxl::JxlSimpleEncoder::new(&rgb, options).encode(&mut out).unwrap();
    out
}
