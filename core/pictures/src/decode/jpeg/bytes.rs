//! A JPEG's bytes as its decoder reads them: progress is reported, and reading can be stopped.

use std::cell::Cell;

use zune_jpeg::zune_core::bytestream::{ZByteIoError, ZByteReaderTrait, ZSeekFrom};

use crate::limits::Run;

/// Bytes between two looks at the job's token.
const LOOK: usize = 1 << 16;

/// Zeros that may be drawn beyond the end: as many as the decoder holds in advance. A file that
/// lacks no more than its end marker is whole.
const AHEAD: usize = 8;

/// The bytes of one stream. They end at once when the job is called off.
#[derive(Debug)]
pub(super) struct Bytes<'a> {
    data: &'a [u8],
    at: usize,
    look: usize,
    run: &'a Run,
    left: &'a Cell<usize>,
}

impl<'a> Bytes<'a> {
    /// Where they were left goes to `left` once they are no longer drawn.
    pub(super) fn new(data: &'a [u8], run: &'a Run, left: &'a Cell<usize>) -> Self {
        Self { data, at: 0, look: LOOK, run, left }
    }

    #[cold]
    fn look(&mut self) {
        self.look = self.at.saturating_add(LOOK);
        self.run.before_rows(self.at, self.data.len());
        if self.run.check().is_err() {
            self.data = &[];
        }
    }
}

impl Drop for Bytes<'_> {
    fn drop(&mut self) {
        self.left.set(self.at);
    }
}

impl ZByteReaderTrait for Bytes<'_> {
    #[inline]
    fn read_byte_no_error(&mut self) -> u8 {
        let byte = self.data.get(self.at).copied().unwrap_or(0);
        self.at += 1;
        byte
    }

    #[inline]
    fn read_exact_bytes(&mut self, buf: &mut [u8]) -> Result<(), ZByteIoError> {
        self.peek_exact_bytes(buf)?;
        self.at += buf.len();
        if self.at >= self.look {
            self.look();
        }
        Ok(())
    }

    fn read_bytes(&mut self, buf: &mut [u8]) -> Result<usize, ZByteIoError> {
        let read = self.peek_bytes(buf)?;
        self.at += read;
        Ok(read)
    }

    fn peek_bytes(&mut self, buf: &mut [u8]) -> Result<usize, ZByteIoError> {
        let left = self.data.get(self.at..).unwrap_or(&[]);
        let length = left.len().min(buf.len());
        buf[..length].copy_from_slice(&left[..length]);
        Ok(length)
    }

    #[inline]
    fn peek_exact_bytes(&mut self, buf: &mut [u8]) -> Result<(), ZByteIoError> {
        let end = self.at.saturating_add(buf.len());
        let Some(bytes) = self.data.get(self.at..end) else {
            let left = self.data.len().saturating_sub(self.at);
            return Err(ZByteIoError::NotEnoughBytes(left, buf.len()));
        };
        buf.copy_from_slice(bytes);
        Ok(())
    }

    #[inline]
    fn z_seek(&mut self, from: ZSeekFrom) -> Result<u64, ZByteIoError> {
        let to = match from {
            ZSeekFrom::Start(at) => usize::try_from(at).ok(),
            ZSeekFrom::End(by) => {
                isize::try_from(by).ok().and_then(|by| self.data.len().checked_add_signed(by))
            }
            ZSeekFrom::Current(by) => {
                isize::try_from(by).ok().and_then(|by| self.at.checked_add_signed(by))
            }
        };
        self.at = to.ok_or(ZByteIoError::SeekError("it points outside"))?;
        self.z_position()
    }

    /// Never true: the end is an error, else what is missing would be filled with grey.
    #[inline]
    fn is_eof(&mut self) -> Result<bool, ZByteIoError> {
        if self.at > self.data.len().saturating_add(AHEAD) {
            return Err(ZByteIoError::Generic("it ends early"));
        }
        Ok(false)
    }

    fn z_position(&mut self) -> Result<u64, ZByteIoError> {
        u64::try_from(self.at).map_err(ZByteIoError::from)
    }

    fn read_remaining(&mut self, sink: &mut Vec<u8>) -> Result<usize, ZByteIoError> {
        let left = self.data.get(self.at..).unwrap_or(&[]);
        sink.extend_from_slice(left);
        self.at += left.len();
        Ok(left.len())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{CancelToken, Limits};

    #[test]
    fn reading_reports_progress_and_can_be_stopped() {
        let token = CancelToken::default();
        let run = Run::new(&token, Limits::default());
        let data = vec![7; 10 * LOOK];
        let left = Cell::default();
        let mut bytes = Bytes::new(&data, &run, &left);
        let mut four = [0; 4];
        for _ in 0..5 * LOOK / 4 {
            bytes.read_exact_bytes(&mut four).unwrap();
        }
        assert_eq!(token.per_mille(), 333, "half of what decoding counts for");
        token.cancel();
        let left = (0..5 * LOOK / 4).take_while(|_| bytes.read_exact_bytes(&mut four).is_ok());
        assert!(left.count() <= LOOK / 4, "at the next look at the latest");
        assert!(bytes.is_eof().is_err(), "and says so where reading cannot");
    }

    #[test]
    fn a_few_zeros_follow_the_end() {
        let run = Run::new(&CancelToken::default(), Limits::default());
        let left = Cell::default();
        let mut bytes = Bytes::new(&[1, 2, 3], &run, &left);
        assert!(bytes.read_exact_bytes(&mut [0; 4]).is_err(), "no four are there");
        let drawn = [(); 5].map(|()| bytes.read_byte_no_error());
        assert_eq!(drawn, [1, 2, 3, 0, 0], "then zeros");
        assert!(matches!(bytes.is_eof(), Ok(false)), "which the decoder may hold in advance");
        (0..8).for_each(|_| assert_eq!(bytes.read_byte_no_error(), 0, "on and on"));
        assert!(bytes.is_eof().is_err(), "but not use");
        drop(bytes);
        assert_eq!(left.get(), 13, "all of which is told");
    }
}
