//! From a file to pixels of sRGB at the size wanted.

use std::path::Path;

use crate::decode::{Decoder, Header, Source, decoder_of};
use crate::guard::guarded;
use crate::limits::Run;
use crate::pipeline::Job;
use crate::profile::{self, Painter};
use crate::{CancelToken, Facts, Finding, Limits, PictureError, Preview, Target};

/// A file whose headers are read, and whose size is within bounds.
struct Opened {
    source: Source,
    decoder: &'static dyn Decoder,
    header: Header,
    run: Run,
}

impl Opened {
    fn new(path: &Path, run: Run) -> Result<Self, PictureError> {
        let source = Source::open(path)?;
        let decoder = decoder_of(&source)?;
        let header = decoder.header(&source, &run)?;
        let run = run.sized(source.bytes, header.size)?;
        Ok(Self { source, decoder, header, run })
    }
}

/// Reads a file's headers.
///
/// # Errors
/// The file cannot be read, or is nothing that is opened here.
pub fn probe(path: &Path, limits: &Limits) -> Result<Facts, PictureError> {
    guarded(|| {
        let run = Run::new(&CancelToken::default(), *limits);
        let Opened { source, header, .. } = Opened::new(path, run)?;
        let (_, mut findings) = Painter::new(&header);
        findings.extend(findings_of(&header));
        let turned = header.orientation.turns();
        Ok(Facts {
            format: header.format,
            pixels: header.orientation.apply_size(header.size),
            resolution: header.resolution.map(|r| if turned { r.turned() } else { r }),
            orientation: header.orientation,
            profile: profile::facts(&header),
            bits: header.bits,
            has_thumbnail: header.thumbnail.is_some(),
            file_bytes: source.bytes,
            findings,
        })
    })
}

/// Decodes a picture at the size wanted. Never enlarges: where more pixels are asked for than
/// there are, the picture comes at its own size, with a finding.
///
/// # Errors
/// Why there are no pixels at all; a file that breaks off comes as far as it goes, with a
/// finding.
pub fn preview(
    path: &Path,
    target: Target,
    limits: &Limits,
    token: &CancelToken,
) -> Result<Preview, PictureError> {
    guarded(|| {
        let run = Run::new(token, *limits);
        let Opened { source, decoder, header, run } = Opened::new(path, run)?;
        let mut preview =
            Job { decoder, source: &source, header: &header, run: &run }.run(target)?;
        preview.findings.extend(findings_of(&header));
        run.advance(1, 1);
        Ok(preview)
    })
}

/// Something to show at once: the small picture that the file holds of itself. `None` where it
/// holds none that can be read and shows the same; then only [`preview`] helps.
///
/// # Errors
/// As for [`preview`].
pub fn first_look(
    path: &Path,
    max_side: u32,
    limits: &Limits,
    token: &CancelToken,
) -> Result<Option<Preview>, PictureError> {
    guarded(|| {
        let run = Run::new(token, *limits);
        let Opened { source, decoder, header, run } = Opened::new(path, run)?;
        let job = Job { decoder, source: &source, header: &header, run: &run };
        Ok(job.thumbnail(max_side))
    })
}

fn findings_of(header: &Header) -> Vec<Finding> {
    let mut findings = header.findings.clone();
    if header.channels.has_alpha() {
        findings.push(Finding::Transparency);
    }
    findings
}
