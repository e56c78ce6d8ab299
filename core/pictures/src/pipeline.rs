//! The work behind a preview: where the wanted pixels lie, which rows give them, and two threads
//! that make them.

use std::ops::Range;
use std::sync::Arc;
use std::sync::mpsc::{SyncSender, sync_channel};

use crate::decode::{Decoder, Header, JpegBytes, Samples, Sink, Source, jpeg_header};
use crate::guard::{crashed, guarded};
use crate::limits::Run;
use crate::profile::Painter;
use crate::scale::{Kernel, Reduced, Scaler, Window};
use crate::{Finding, PictureError, Preview, Region, Size, Target};

/// One picture on its way to pixels.
pub(crate) struct Job<'a> {
    pub(crate) decoder: &'a dyn Decoder,
    pub(crate) source: &'a Source,
    pub(crate) header: &'a Header,
    pub(crate) run: &'a Run,
}

impl Job<'_> {
    /// Decodes and reduces to `target`.
    pub(crate) fn run(&self, target: Target) -> Result<Preview, PictureError> {
        let header = self.header;
        if header.size.width == 0 || header.size.height == 0 {
            return Err(PictureError::damaged(header.format, "it has no pixels"));
        }
        self.run.limits().check_size(header.size)?;
        self.run.check()?;
        let (painter, mut findings) = Painter::new(header);
        let picture = header.orientation.apply_size(header.size);
        let (region, size) = placed(picture, target, &mut findings);
        let stored_target = header.orientation.apply_size(size);
        let window = Window {
            decoded: header.size,
            span: self.stored_span(region),
            target: stored_target,
        };
        let (rgba, stopped) = self.decode(&window, &painter)?;
        if let Some((rows, detail)) = stopped {
            let of = header.size.height;
            findings.push(Finding::Incomplete { rows: rows.min(of), of, detail });
        }
        let rgba = header.orientation.apply(rgba, stored_target);
        Ok(Preview { size, rgba, picture, findings })
    }

    /// The embedded small picture, if it can be read and is the picture's shape: some cameras
    /// put black bars round it.
    pub(crate) fn thumbnail(&self, max_side: u32) -> Option<Preview> {
        let header = self.header;
        let bytes = header.thumbnail.as_ref()?;
        let mut small = jpeg_header(bytes).ok()?;
        let shape = |s: Size| f64::from(s.width) / f64::from(s.height.max(1));
        if (shape(small.size) / shape(header.size) - 1.0).abs() > 0.03 {
            return None;
        }
        small.profile = small.profile.or_else(|| header.profile.clone());
        small.orientation = header.orientation;
        let decoder = JpegBytes(bytes);
        let job = Job { decoder: &decoder, source: self.source, header: &small, run: self.run };
        let side = max_side.min(small.size.width.max(small.size.height)).max(1);
        let mut look = job.run(Target::Longest(side)).ok()?;
        look.picture = header.orientation.apply_size(header.size);
        Some(look)
    }

    /// The region's left, top, right, bottom in the stored picture.
    fn stored_span(&self, r: Region) -> [f64; 4] {
        let header = self.header;
        let corner = |x, y| header.orientation.stored_from_shown(header.size, x, y);
        let (x1, y1) = corner(r.left, r.top);
        let (x2, y2) = corner(r.left + r.width, r.top + r.height);
        [x1.min(x2), y1.min(y2), x1.max(x2), y1.max(y2)]
    }

    /// Decodes and reduces on two threads. A decoder that stops early leaves what it made:
    /// how many rows, and why.
    fn decode(
        &self,
        window: &Window,
        painter: &Painter,
    ) -> Result<(Vec<u8>, Stopped), PictureError> {
        let Self { decoder, source, header, run } = *self;
        let [_, top, _, bottom] = window.span;
        let rows = usize::try_from(window.target.height).unwrap_or(usize::MAX);
        let down = window.kernel(window.decoded.height, top, bottom, window.target.height);
        let down = Arc::new(down);
        self.check_memory(window, &down, painter)?;
        let work = Work { job: self, window, painter, down };
        if let Some(whole) = guarded(|| decoder.whole(source, header, run))? {
            let (rgba, made, fed) =
                work.in_halves(rows, |rows, sink| whole.hand_on(rows, sink));
            fed?;
            return match whole.stopped {
                Some(detail) if made == 0 => Err(PictureError::damaged(header.format, &detail)),
                stopped => Ok((rgba, stopped.map(|detail| (whole.rows, detail)))),
            };
        }
        let (rgba, made, fed) = if header.any_rows {
            work.in_halves(rows, |rows, sink| decoder.rows(source, header, rows, run, sink))
        } else {
            work.in_line(rows)?
        };
        work.settled(rgba, made, fed)
    }

    /// What the reduction itself holds: rows under the filter and the result, twice.
    fn check_memory(
        &self,
        window: &Window,
        down: &Kernel,
        painter: &Painter,
    ) -> Result<(), PictureError> {
        let row = u64::from(window.decoded.width)
            * u64::try_from(painter.linear_channels() * 4).unwrap_or(4);
        let under = u64::try_from(down.longest()).unwrap_or(u64::MAX).saturating_add(2);
        let held = row.saturating_mul(under).saturating_add(window.target.pixels() * 8);
        self.run.limits().check_memory(held)
    }
}

/// Where the pixels wanted lie in the picture as shown, and how many there will be.
fn placed(picture: Size, target: Target, findings: &mut Vec<Finding>) -> (Region, Size) {
    let (pw, ph) = (f64::from(picture.width), f64::from(picture.height));
    let whole = Region { left: 0.0, top: 0.0, width: pw, height: ph };
    let (region, asked) = match target {
        Target::Longest(side) => {
            let longer = picture.width.max(picture.height);
            if side > longer {
                let asked = Size::new(
                    ceil_to_u32(pw * f64::from(side) / f64::from(longer)),
                    ceil_to_u32(ph * f64::from(side) / f64::from(longer)),
                );
                findings.push(Finding::NotEnlarged { asked, given: picture });
            }
            return (whole, picture.fitted(side));
        }
        Target::Exact(size) => (whole, size),
        Target::Part(r, size) => {
            let sane = |v: f64, low: f64, high: f64| {
                if v.is_finite() { v.clamp(low, high.max(low)) } else { low }
            };
            let left = sane(r.left, 0.0, pw - 1.0);
            let top = sane(r.top, 0.0, ph - 1.0);
            let width = sane(r.width, 1.0, pw - left);
            let height = sane(r.height, 1.0, ph - top);
            (Region { left, top, width, height }, size)
        }
    };
    let given = Size::new(
        asked.width.clamp(1, ceil_to_u32(region.width)),
        asked.height.clamp(1, ceil_to_u32(region.height)),
    );
    if given.width < asked.width || given.height < asked.height {
        findings.push(Finding::NotEnlarged { asked, given });
    }
    (region, given)
}

#[allow(
    clippy::as_conversions,
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "saturates, and is at least 1"
)]
fn ceil_to_u32(v: f64) -> u32 {
    (v.ceil() as u32).max(1)
}

struct Work<'a> {
    job: &'a Job<'a>,
    window: &'a Window,
    painter: &'a Painter,
    down: Arc<Kernel>,
}

/// Rows reached and why no further; `None` where all were decoded.
type Stopped = Option<(u32, String)>;

/// RGBA, how many of its rows could be made, and why the decoder stopped early.
type Reached = (Vec<u8>, usize, Result<(), PictureError>);

impl Work<'_> {
    fn scaler(&self, rows: Range<usize>, report: bool) -> Scaler<'_> {
        let down = self.down.clone();
        Scaler::new(self.window, down, rows, self.painter, self.job.run, report)
    }

    /// The picture's rows that the target's `rows` are made of.
    fn needs(&self, rows: Range<usize>) -> Range<u32> {
        let needs = self.down.needs(rows);
        let row = |n: usize| u32::try_from(n).unwrap_or(u32::MAX);
        let square = self.window.square();
        row(needs.start * square)..row(needs.end * square)
    }

    /// Two threads, each feeding and reducing its half of the rows; one where the picture is
    /// small.
    fn in_halves(
        &self,
        rows: usize,
        source: impl Fn(Range<u32>, &mut dyn Sink) -> Result<(), PictureError> + Sync,
    ) -> Reached {
        let part = |range: Range<usize>, report| {
            let mut scaler = self.scaler(range.clone(), report);
            let fed = guarded(|| source(self.needs(range), &mut scaler));
            (scaler.finish(), fed)
        };
        if self.window.decoded.pixels() <= 1 << 20 {
            let (Reduced { rgba, rows }, fed) = part(0..rows, true);
            return (rgba, rows, fed);
        }
        let middle = rows / 2;
        let (first, second) = std::thread::scope(|scope| {
            let other = scope.spawn(|| part(middle..rows, true));
            (part(0..middle, false), other.join())
        });
        let (Reduced { mut rgba, rows: made }, fed) = first;
        match second {
            Ok((second, second_fed)) => {
                rgba.extend_from_slice(&second.rgba);
                let made = if made == middle { made + second.rows } else { made };
                (rgba, made, fed.and(second_fed))
            }
            Err(panic) => (rgba, 0, Err(crashed(panic.as_ref()))),
        }
    }

    /// One thread decodes, this one reduces.
    fn in_line(&self, rows: usize) -> Result<Reached, PictureError> {
        let Job { decoder, source, header, run } = self.job;
        let needs = self.needs(0..rows);
        let mut scaler = self.scaler(0..rows, true);
        let (fed, taken) = std::thread::scope(|scope| {
            let (sender, receiver) = sync_channel::<Band>(8);
            let decoding = scope.spawn(move || {
                guarded(|| decoder.rows(source, header, needs, run, &mut Funnel(sender)))
            });
            let mut taken = Ok(());
            for band in receiver {
                taken = match &band {
                    Band::Bytes(first, v) => scaler.rows(*first, Samples::Bytes(v)),
                    Band::Words(first, v) => scaler.rows(*first, Samples::Words(v)),
                };
                if taken.is_err() {
                    // Dropping the receiver stops the decoder at its next band.
                    break;
                }
            }
            let fed = decoding.join().unwrap_or_else(|panic| Err(crashed(panic.as_ref())));
            (fed, taken)
        });
        taken?;
        let Reduced { rgba, rows } = scaler.finish();
        Ok((rgba, rows, fed))
    }

    /// A file that broke off after some rows is shown as far as it goes.
    fn settled(
        &self,
        rgba: Vec<u8>,
        made: usize,
        fed: Result<(), PictureError>,
    ) -> Result<(Vec<u8>, Stopped), PictureError> {
        let all = usize::try_from(self.window.target.height).unwrap_or(usize::MAX);
        match fed {
            Ok(()) if made >= all => Ok((rgba, None)),
            Ok(()) if made > 0 => {
                Ok((rgba, Some((self.reached(made), "it ends early".into()))))
            }
            Ok(()) => Err(PictureError::damaged(self.job.header.format, "it holds no rows")),
            Err(PictureError::Damaged { detail, .. }) if made > 0 => {
                Ok((rgba, Some((self.reached(made), detail))))
            }
            Err(error) => Err(error),
        }
    }

    /// The decoded rows that `made` finished rows stand for.
    fn reached(&self, made: usize) -> u32 {
        u32::try_from(self.down.needs(0..made).end * self.window.square()).unwrap_or(u32::MAX)
    }
}

enum Band {
    Bytes(u32, Vec<u8>),
    Words(u32, Vec<u16>),
}

/// Carries rows to the other thread.
struct Funnel(SyncSender<Band>);

impl Sink for Funnel {
    fn rows(&mut self, first: u32, samples: Samples<'_>) -> Result<(), PictureError> {
        let band = match samples {
            Samples::Bytes(v) => Band::Bytes(first, v.to_vec()),
            Samples::Words(v) => Band::Words(first, v.to_vec()),
        };
        self.0.send(band).map_err(|_| PictureError::Cancelled)
    }
}
