//! JPEG XL, through the `jxl-oxide` crate, decoded as a whole. Behind the feature `jxl`: it takes
//! most of a minute of one core to build.

use std::ops::Range;

use jxl_oxide::{AllocTracker, JxlImage, PixelFormat};

use super::{Channels, Decoder, Header, Samples, Sink, Source};
use crate::limits::Run;
use crate::{Finding, Format, PictureError, Size};

pub(super) struct JpegXl;

fn open(source: &Source, run: &Run) -> Result<JxlImage, PictureError> {
    run.limits().check_memory(source.bytes)?;
    let tracker = AllocTracker::with_limit(run.limits().memory_len());
    let opened = JxlImage::builder().alloc_tracker(tracker).open(&source.path);
    opened.map_err(|e| PictureError::damaged(Format::JpegXl, &e))
}

impl Decoder for JpegXl {
    fn header(&self, source: &Source, run: &Run) -> Result<Header, PictureError> {
        let image = open(source, run)?;
        let channels = match image.pixel_format() {
            PixelFormat::Gray => Channels::Grey,
            PixelFormat::Graya => Channels::GreyAlpha,
            PixelFormat::Rgb => Channels::Rgb,
            PixelFormat::Rgba => Channels::Rgba,
            PixelFormat::Cmyk | PixelFormat::Cmyka => {
                return Err(PictureError::unsupported(Format::JpegXl, "CMYK pixels"));
            }
        };
        // The library turns the picture itself.
        let size = Size::new(image.width(), image.height());
        let mut header = Header::new(Format::JpegXl, size, channels, 16);
        header.profile = Some(image.rendered_icc());
        if image.num_loaded_keyframes() > 1 {
            header.findings.push(Finding::SeveralPictures);
        }
        Ok(header)
    }

    fn rows(
        &self,
        source: &Source,
        header: &Header,
        _rows: Range<u32>,
        run: &Run,
        sink: &mut dyn Sink,
    ) -> Result<(), PictureError> {
        // Planes of 32 bits a sample, about twice.
        let channels = u64::try_from(header.channels.count()).unwrap_or(4);
        run.limits().check_memory(header.size.pixels().saturating_mul(channels * 8))?;
        let image = open(source, run)?;
        let render =
            image.render_frame(0).map_err(|e| PictureError::damaged(Format::JpegXl, &e))?;
        let mut stream = render.stream();
        let width = usize::try_from(header.size.width).unwrap_or(usize::MAX);
        let line = width.saturating_mul(header.channels.count()).max(1);
        let mut words = vec![0u16; line.saturating_mul(64)];
        for first in (0..header.size.height).step_by(64) {
            run.check()?;
            let whole = stream.write_to_buffer(&mut words) / line * line;
            if whole == 0 {
                break;
            }
            sink.rows(first, Samples::Words(&words[..whole]))?;
        }
        Ok(())
    }
}
