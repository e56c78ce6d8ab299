//! JPEG, through the `jpeg-decoder` crate.

use std::io::Cursor;

use jpeg_decoder::{Decoder as Library, Error, PixelFormat};

use super::{Channels, Decoder, Header, Samples, Sink, Source, Want};
use crate::facts::ResolutionSource;
use crate::limits::Run;
use crate::{Format, PictureError, Size, exif};

pub(super) struct Jpeg;

fn stop(error: &Error) -> PictureError {
    match error {
        Error::Unsupported(what) => {
            PictureError::unsupported(Format::Jpeg, format!("a variant ({what:?})"))
        }
        other => PictureError::damaged(Format::Jpeg, other),
    }
}

fn read_header(bytes: &[u8]) -> Result<Header, PictureError> {
    let mut decoder = Library::new(Cursor::new(bytes));
    decoder.read_info().map_err(|e| stop(&e))?;
    let info = decoder
        .info()
        .ok_or_else(|| PictureError::damaged(Format::Jpeg, "no frame was found"))?;
    let (channels, bits) = match info.pixel_format {
        PixelFormat::L8 => (Channels::Grey, 8),
        PixelFormat::L16 => (Channels::Grey, 16),
        PixelFormat::RGB24 => (Channels::Rgb, 8),
        PixelFormat::CMYK32 => (Channels::Cmyk, 8),
    };
    let size = Size::new(info.width.into(), info.height.into());
    let mut header = Header::new(Format::Jpeg, size, channels, bits);
    header.shrinks = 8;
    header.profile = decoder.icc_profile();
    if let Some(block) = decoder.exif_data() {
        exif::read_into(&mut header, block, ResolutionSource::Exif);
    }
    Ok(header)
}

impl Decoder for Jpeg {
    fn header(&self, source: &Source, run: &Run) -> Result<Header, PictureError> {
        read_header(&source.all(run)?)
    }

    fn rows(
        &self,
        source: &Source,
        header: &Header,
        want: &Want,
        run: &Run,
        sink: &mut dyn Sink,
    ) -> Result<(), PictureError> {
        let bytes = source.all(run)?;
        let mut decoder = Library::new(Cursor::new(&bytes));
        decoder.set_max_decoding_buffer_size(run.limits().memory_len());
        decoder.read_info().map_err(|e| stop(&e))?;
        let shrunk = |n: u32| u16::try_from(n.div_ceil(want.shrink)).unwrap_or(u16::MAX);
        let (width, _) = decoder
            .scale(shrunk(header.size.width), shrunk(header.size.height))
            .map_err(|e| stop(&e))?;
        let mut pixels = decoder.decode().map_err(|e| stop(&e))?;
        if header.channels == Channels::Cmyk {
            // Adobe's writers store ink inverted; the library hands that on.
            for v in &mut pixels {
                *v = 255 - *v;
            }
        }
        let line = usize::from(width) * header.channels.count();
        for (first, piece) in (0u32..).step_by(64).zip(pixels.chunks((line * 64).max(1))) {
            run.check()?;
            sink.rows(first, Samples::Bytes(piece))?;
        }
        Ok(())
    }
}
