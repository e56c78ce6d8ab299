//! WebP, through the `image-webp` crate, decoded as a whole.

use std::fs::File;
use std::io::BufReader;

use image_webp::{DecodingError, WebPDecoder};

use super::exif;
use super::{Channels, Decoder, Header, Source, Whole};
use crate::limits::Run;
use crate::size::ResolutionSource;
use crate::{Finding, Format, PictureError, Size};

pub(super) struct WebP;

fn damaged(error: &DecodingError) -> PictureError {
    PictureError::damaged(Format::WebP, error)
}

fn open(source: &Source, run: &Run) -> Result<WebPDecoder<BufReader<File>>, PictureError> {
    let mut decoder = WebPDecoder::new(source.reader()?).map_err(|e| damaged(&e))?;
    decoder.set_memory_limit(run.limits().memory_len());
    Ok(decoder)
}

impl Decoder for WebP {
    fn header(&self, source: &Source, run: &Run) -> Result<Header, PictureError> {
        let mut decoder = open(source, run)?;
        let (width, height) = decoder.dimensions();
        let channels = if decoder.has_alpha() { Channels::Rgba } else { Channels::Rgb };
        let mut header = Header::new(Format::WebP, Size::new(width, height), channels, 8);
        header.profile = decoder.icc_profile().map_err(|e| damaged(&e))?;
        if let Ok(Some(block)) = decoder.exif_metadata() {
            // Some writers keep the marker that JPEG puts before EXIF data.
            let block = block.strip_prefix(b"Exif\0\0").unwrap_or(&block);
            exif::read_into(&mut header, block, ResolutionSource::Exif);
        }
        if decoder.is_animated() {
            header.findings.push(Finding::SeveralPictures);
        }
        Ok(header)
    }

    fn whole(
        &self,
        source: &Source,
        header: &Header,
        run: &Run,
    ) -> Result<Option<Whole>, PictureError> {
        let mut decoder = open(source, run)?;
        // The decoder's own planes take about as much again as the pixels.
        let length = decoder.output_buffer_size().unwrap_or(usize::MAX);
        let wanted = u64::try_from(length).unwrap_or(u64::MAX);
        run.limits().check_memory(wanted.saturating_mul(5) / 2)?;
        let mut samples = vec![0; length];
        decoder.read_image(&mut samples).map_err(|e| damaged(&e))?;
        let width = usize::try_from(header.size.width).unwrap_or(usize::MAX);
        let line = width.saturating_mul(header.channels.count());
        Ok(Some(Whole { samples, line, rows: header.size.height, stopped: None }))
    }
}
