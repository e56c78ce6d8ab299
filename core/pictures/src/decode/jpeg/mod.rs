//! JPEG: baseline and progressive, grey, RGB, `YCbCr`, CMYK and YCCK of 8 bits.
//!
//! Our own, because what the program lives on is in none of the libraries at once: shrinking by
//! the transform, rows handed on while the rest is still coded, both processor cores busy, only
//! the needed coefficients held. Checked against a library's decoder in this package's tests.

mod blocks;
mod coding;
mod huffman;
mod idct;
mod markers;
mod rows;

use std::sync::atomic::{AtomicBool, AtomicUsize, Ordering};
use std::sync::mpsc::{channel, sync_channel};

use self::blocks::{Band, Part};
use self::coding::{Sequential, Store, read_alone, read_together};
use self::markers::{Frame, Headers, Scan, Stop};
use self::rows::{Colour, Maker};
use super::{Channels, Decoder, Header, Sink, Source, Want};
use crate::facts::ResolutionSource;
use crate::limits::Run;
use crate::{Format, PictureError, Size, exif};

pub(super) struct Jpeg;

impl From<Stop> for PictureError {
    fn from(stop: Stop) -> Self {
        match stop {
            Stop::Unsupported(what) => Self::unsupported(Format::Jpeg, what),
            Stop::Damaged(what) => Self::damaged(Format::Jpeg, &what),
            Stop::Short => Self::damaged(Format::Jpeg, "it ends early"),
        }
    }
}

/// What the components are, as other readers guess it too: by Adobe's segment, else by JFIF's,
/// else by the components' names.
fn colour(headers: &Headers, frame: &Frame) -> Colour {
    let ids: Vec<u8> = frame.components.iter().map(|c| c.id).collect();
    let inverted = headers.adobe.is_some();
    match (frame.components.len(), headers.adobe) {
        (1, _) => Colour::Grey,
        (4, Some(2)) => Colour::Ycck { inverted },
        (4, _) => Colour::Cmyk { inverted },
        (_, Some(0)) if !headers.jfif => Colour::Rgb,
        (_, None) if !headers.jfif && ids == *b"RGB" => Colour::Rgb,
        _ => Colour::YCbCr,
    }
}

fn frame_of(headers: &Headers) -> Result<&Frame, PictureError> {
    let none = || PictureError::damaged(Format::Jpeg, "no frame was found");
    headers.frame.as_ref().ok_or_else(none)
}

fn header_of(headers: &Headers) -> Result<Header, PictureError> {
    let frame = frame_of(headers)?;
    let channels = match colour(headers, frame) {
        Colour::Grey => Channels::Grey,
        Colour::Rgb | Colour::YCbCr => Channels::Rgb,
        Colour::Cmyk { .. } | Colour::Ycck { .. } => Channels::Cmyk,
    };
    let size = Size::new(frame.width.into(), frame.height.into());
    let mut header = Header::new(Format::Jpeg, size, channels, 8);
    header.shrinks = 8;
    header.own_threads = true;
    header.profile = headers.profile();
    if let Some(block) = &headers.exif {
        exif::read_into(&mut header, block, ResolutionSource::Exif);
    }
    if let Some(stated) = headers.jfif_resolution {
        header.state_resolution(stated);
    }
    Ok(header)
}

impl Decoder for Jpeg {
    fn header(&self, source: &Source, run: &Run) -> Result<Header, PictureError> {
        // The headers are at the front; profiles and small pictures may make them long.
        let mut length = 1 << 17;
        loop {
            let head = source.head(length)?;
            let mut headers = Headers::default();
            match headers.next_scan(&head) {
                Err(Stop::Short) if length < source.bytes => length *= 8,
                Err(Stop::Short) if headers.frame.is_some() => return header_of(&headers),
                Err(stop) => return Err(stop.into()),
                Ok(_) => return header_of(&headers),
            }
            run.check()?;
            run.limits().check_memory(length)?;
        }
    }

    fn rows(
        &self,
        source: &Source,
        _header: &Header,
        want: &Want,
        run: &Run,
        sink: &mut dyn Sink,
    ) -> Result<(), PictureError> {
        decode(&source.all(run)?, want, run, sink)
    }
}

/// The header of a stream in memory, which is all there is of it.
pub(crate) fn jpeg_header(data: &[u8]) -> Result<Header, PictureError> {
    let mut headers = Headers::default();
    headers.next_scan(data)?;
    header_of(&headers)
}

/// A stream in memory: an embedded small picture.
pub(crate) struct JpegBytes<'a>(pub(crate) &'a [u8]);

impl Decoder for JpegBytes<'_> {
    fn header(&self, _: &Source, _: &Run) -> Result<Header, PictureError> {
        jpeg_header(self.0)
    }

    fn rows(
        &self,
        _: &Source,
        _: &Header,
        want: &Want,
        run: &Run,
        sink: &mut dyn Sink,
    ) -> Result<(), PictureError> {
        decode(self.0, want, run, sink)
    }
}

/// Decodes a stream in memory.
fn decode(
    data: &[u8],
    want: &Want,
    run: &Run,
    sink: &mut dyn Sink,
) -> Result<(), PictureError> {
    let mut headers = Headers::default();
    let first = headers.next_scan(data)?;
    headers.may_end();
    let frame = frame_of(&headers)?.clone();
    let Some(first) = first else {
        return Err(PictureError::damaged(Format::Jpeg, "it holds no scan"));
    };
    let shrink = usize::try_from(want.shrink).unwrap_or(1);
    let parts = Part::all(&frame, &headers.quants, shrink);
    let size =
        (usize::from(frame.width).div_ceil(shrink), usize::from(frame.height).div_ceil(shrink));
    let unit = (frame.h_max * 8 / shrink, frame.v_max * 8 / shrink);
    let maker = Maker::new(&parts, colour(&headers, &frame), size, unit);
    let work =
        Work { data, frame: &frame, parts: &parts, run, end: want.rows.end, unit: unit.1 };
    if !frame.progressive && first.parts.len() == frame.components.len() {
        return work.stream(&first, maker, sink);
    }
    let mut scans = vec![first];
    headers.skip_scan(data);
    while let Ok(Some(scan)) = headers.next_scan(data) {
        if scans.len() >= MOST_SCANS {
            return Err(PictureError::damaged(Format::Jpeg, "it holds too many scans"));
        }
        headers.skip_scan(data);
        scans.push(scan);
    }
    work.store(&scans, maker, sink)
}

/// Reads the codes of a sequential JPEG and makes nothing of them: the floor under its speed,
/// for the bench.
///
/// # Errors
/// It cannot be read, or is not sequential in one scan.
#[doc(hidden)]
pub fn jpeg_codes_alone(path: &std::path::Path) -> Result<(), PictureError> {
    let run = Run::new(&crate::Watch::default(), crate::Limits::default());
    let data = Source::open(path)?.all(&run)?;
    let mut headers = Headers::default();
    let scan = headers.next_scan(&data)?;
    let frame = frame_of(&headers)?;
    let parts = Part::all(frame, &headers.quants, 8);
    match scan {
        Some(scan) if !frame.progressive && scan.parts.len() == parts.len() => {
            let mut coded = Sequential::new(&data, frame, &scan, &parts);
            let mut band = Band::default();
            for _ in 0..frame.mcus().1 {
                band = band.cleared(&parts);
                coded.read(&mut band)?;
            }
            Ok(())
        }
        _ => Err(PictureError::unsupported(Format::Jpeg, "several scans")),
    }
}

/// More scans than any encoder writes; each costs a pass over the picture.
const MOST_SCANS: usize = 500;

struct Work<'a> {
    data: &'a [u8],
    frame: &'a Frame,
    parts: &'a [Part],
    run: &'a Run,
    /// The first row that is not wanted.
    end: u32,
    /// Rows of pixels in a unit.
    unit: usize,
}

impl Work<'_> {
    /// Rows of units that are needed.
    fn bands(&self) -> usize {
        // One more than the rows wanted, for filling in between rows.
        let end = usize::try_from(self.end).unwrap_or(usize::MAX).saturating_add(1);
        end.div_ceil(self.unit).min(self.frame.mcus().1)
    }

    /// One thread reads codes, this one makes pixels of them.
    fn stream(
        &self,
        scan: &Scan,
        maker: Maker<'_>,
        sink: &mut dyn Sink,
    ) -> Result<(), PictureError> {
        let mut coded = Sequential::new(self.data, self.frame, scan, self.parts);
        self.pipe(maker, sink, move |band, _| coded.read(band))
    }

    /// `fill` makes the bands on a thread of its own; here they become rows.
    fn pipe(
        &self,
        mut maker: Maker<'_>,
        sink: &mut dyn Sink,
        mut fill: impl FnMut(&mut Band, usize) -> Result<(), Stop> + Send,
    ) -> Result<(), PictureError> {
        let bands = self.bands();
        let (sender, receiver) = sync_channel::<Result<Band, Stop>>(4);
        let (give_back, used) = channel::<Band>();
        std::thread::scope(|scope| {
            scope.spawn(move || {
                for row in 0..bands {
                    let mut band = used.try_recv().unwrap_or_default().cleared(self.parts);
                    let filled = fill(&mut band, row).map(|()| band);
                    let failed = filled.is_err();
                    if sender.send(filled).is_err() || failed {
                        return;
                    }
                }
            });
            for band in receiver {
                self.run.check()?;
                match band {
                    Ok(band) => {
                        maker.take(&band, sink)?;
                        // The other thread may be through already.
                        drop(give_back.send(band));
                    }
                    Err(stop) => {
                        maker.finish(sink)?;
                        return Err(stop.into());
                    }
                }
            }
            maker.finish(sink)
        })
    }

    /// All scans into a store first: the components' own scans on two threads.
    fn store(
        &self,
        scans: &[Scan],
        maker: Maker<'_>,
        sink: &mut dyn Sink,
    ) -> Result<(), PictureError> {
        let (_, down) = self.frame.mcus();
        let wanted =
            self.parts.iter().map(|p| Store::bytes(p, down)).fold(0, usize::saturating_add);
        self.run.limits().check_memory(u64::try_from(wanted).unwrap_or(u64::MAX))?;
        let mut stores: Vec<Store<'_>> = self
            .parts
            .iter()
            .enumerate()
            .map(|(index, part)| Store::new(part, self.frame, index))
            .collect();
        let stopped = AtomicBool::new(false);
        let go_on = || {
            if self.run.check().is_err() {
                stopped.store(true, Ordering::Relaxed);
            }
            !stopped.load(Ordering::Relaxed)
        };
        let through = AtomicUsize::new(0);
        let told = |read: Result<(), Stop>| {
            let done = through.fetch_add(1, Ordering::Relaxed) + 1;
            self.run.before_rows(done, scans.len());
            read
        };
        // DC scans come first: no AC scan depends on them, nor they on any.
        let mut worst = Ok(());
        for scan in scans.iter().filter(|scan| scan.from == 0) {
            let read = match scan.parts.as_slice() {
                [(index, ..)] => read_alone(self.data, scan, &mut stores[*index], go_on),
                _ => read_together(self.data, self.frame, scan, &mut stores, go_on),
            };
            worst = worst.and(told(read));
        }
        let of_component = |index: usize, store: &mut Store<'_>| {
            let own = scans.iter().filter(|s| s.from > 0 && s.parts[0].0 == index);
            own.map(|scan| told(read_alone(self.data, scan, store, go_on)))
                .fold(Ok(()), Result::and)
        };
        let ac = match stores.split_first_mut() {
            Some((first, rest)) => std::thread::scope(|scope| {
                let others = scope.spawn(|| {
                    let all = rest.iter_mut().enumerate();
                    all.map(|(i, store)| of_component(i + 1, store)).fold(Ok(()), Result::and)
                });
                let first = of_component(0, first);
                first.and(others.join().unwrap_or(markers::damaged("a scan cannot be read")))
            }),
            None => Ok(()),
        };
        worst = worst.and(ac);
        self.run.check()?;
        self.pipe(maker, sink, |band, row| {
            for (index, store) in stores.iter().enumerate() {
                store.fill(band, index, row);
            }
            Ok(())
        })?;
        // A broken scan leaves a coarser picture: shown, and said.
        worst.map_err(PictureError::from)
    }
}
