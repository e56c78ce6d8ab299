//! What every decoder does: it reads headers, then hands on rows of samples.

use std::fs::File;
use std::io::{BufReader, Read};
use std::ops::Range;
use std::path::{Path, PathBuf};

use super::header::Header;
use crate::PictureError;
use crate::limits::Run;

/// Some rows of decoded samples, whole rows one after another.
#[derive(Debug, Clone, Copy)]
pub(crate) enum Samples<'a> {
    Bytes(&'a [u8]),
    Words(&'a [u16]),
}

/// Where decoded rows go.
pub(crate) trait Sink {
    /// Takes whole rows, the first of them row `first` of the picture. Rows come in order, none
    /// twice.
    fn rows(&mut self, first: u32, samples: Samples<'_>) -> Result<(), PictureError>;
}

/// All samples of a picture, from a library that decodes no less at a time.
#[derive(Debug)]
pub(crate) struct Whole {
    pub(crate) samples: Vec<u8>,
    /// Samples in a row.
    pub(crate) line: usize,
    /// Rows that were decoded, from the top; those below hold nothing.
    pub(crate) rows: u32,
    /// Why the file is not whole, if it is not.
    pub(crate) stopped: Option<String>,
}

impl Whole {
    /// Hands on those of `rows` that were decoded.
    pub(crate) fn hand_on(
        &self,
        rows: Range<u32>,
        sink: &mut dyn Sink,
    ) -> Result<(), PictureError> {
        let index = |row: u32| usize::try_from(row).unwrap_or(usize::MAX);
        let mut first = rows.start;
        while first < rows.end.min(self.rows) {
            let end = first.saturating_add(BAND).min(rows.end).min(self.rows);
            let span = index(first).saturating_mul(self.line)..index(end) * self.line;
            let Some(band) = self.samples.get(span) else { break };
            sink.rows(first, Samples::Bytes(band))?;
            first = end;
        }
        Ok(())
    }
}

/// Rows handed on at a time where nothing else decides: a few keep every thread busy without
/// many hand-overs.
pub(crate) const BAND: u32 = 64;

/// A file to decode.
#[derive(Debug)]
pub(crate) struct Source {
    pub(crate) path: PathBuf,
    pub(crate) bytes: u64,
}

impl Source {
    pub(crate) fn open(path: &Path) -> Result<Self, PictureError> {
        let unreadable = |e: std::io::Error| PictureError::unreadable(path, &e);
        let meta = std::fs::metadata(path).map_err(unreadable)?;
        // A pipe or a device could block for ever, a folder cannot be read at all.
        if !meta.is_file() {
            let reason = std::io::Error::other("it is not a file");
            return Err(PictureError::unreadable(path, &reason));
        }
        Ok(Self { path: path.to_path_buf(), bytes: meta.len() })
    }
    pub(crate) fn file(&self) -> Result<File, PictureError> {
        File::open(&self.path).map_err(|e| PictureError::unreadable(&self.path, &e))
    }
    pub(crate) fn reader(&self) -> Result<BufReader<File>, PictureError> {
        Ok(BufReader::with_capacity(1 << 16, self.file()?))
    }
    pub(crate) fn head(&self, length: u64) -> Result<Vec<u8>, PictureError> {
        // Exactly as long, for growing would copy it over and over.
        let length = length.min(self.bytes);
        let mut head = Vec::with_capacity(usize::try_from(length).unwrap_or(0));
        self.file()?
            .take(length)
            .read_to_end(&mut head)
            .map_err(|e| PictureError::unreadable(&self.path, &e))?;
        Ok(head)
    }
    pub(crate) fn all(&self, run: &Run) -> Result<Vec<u8>, PictureError> {
        run.limits().check_memory(self.bytes)?;
        self.head(self.bytes)
    }
}

/// One format.
pub(crate) trait Decoder: Sync {
    /// Reads what the headers say.
    fn header(&self, source: &Source, run: &Run) -> Result<Header, PictureError>;
    /// The whole picture, where its library decodes no less at a time; `None` where
    /// [`Self::rows`] hands it on row by row.
    fn whole(
        &self,
        _source: &Source,
        _header: &Header,
        _run: &Run,
    ) -> Result<Option<Whole>, PictureError> {
        Ok(None)
    }
    /// Decodes `rows`, or more, into `sink`. On an error, what `sink` already took stays good.
    fn rows(
        &self,
        source: &Source,
        header: &Header,
        rows: Range<u32>,
        run: &Run,
        sink: &mut dyn Sink,
    ) -> Result<(), PictureError> {
        match self.whole(source, header, run)? {
            Some(whole) => whole.hand_on(rows, sink),
            None => Ok(()),
        }
    }
}
