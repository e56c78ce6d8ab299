//! A TIFF's bytes, up to the end that its decoder sees.

use std::fs::File;
use std::io::{BufReader, Read, Seek, SeekFrom};

/// A file that seems to end at `end`.
#[derive(Debug)]
pub(super) struct Input {
    file: BufReader<File>,
    at: u64,
    pub(super) end: u64,
}

impl Input {
    pub(super) fn new(file: BufReader<File>) -> Self {
        Self { file, at: 0, end: u64::MAX }
    }
}

impl Read for Input {
    fn read(&mut self, buf: &mut [u8]) -> std::io::Result<usize> {
        let left = usize::try_from(self.end.saturating_sub(self.at)).unwrap_or(usize::MAX);
        let length = buf.len().min(left);
        let read = self.file.read(&mut buf[..length])?;
        self.at += u64::try_from(read).unwrap_or(0);
        Ok(read)
    }
}

impl Seek for Input {
    fn seek(&mut self, to: SeekFrom) -> std::io::Result<u64> {
        self.at = self.file.seek(to)?;
        Ok(self.at)
    }
}
