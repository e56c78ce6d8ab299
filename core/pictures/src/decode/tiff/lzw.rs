//! TIFF's LZW. Source: TIFF 6.0 section 13 (codes from the high bit down, widths growing one
//! code early).
#![allow(
    clippy::as_conversions,
    clippy::cast_possible_truncation,
    reason = "codes of 12 bits and positions below 4 GiB; the hottest loop of this format"
)]

const CLEAR: usize = 256;
const END: usize = 257;
const FIRST: usize = 258;

/// A string of the table: its first eight bytes (the first lowest), its length, and where it
/// stands in what was already written.
#[derive(Clone, Copy, Default)]
struct Entry {
    bytes: u64,
    length: u32,
    from: u32,
}

impl Entry {
    /// This string and the first byte of another.
    #[inline]
    fn grown(self, other: u64) -> Self {
        let place = self.length.wrapping_mul(8);
        let byte = if place < 64 { (other & 255) << place } else { 0 };
        Self { bytes: self.bytes | byte, length: self.length.wrapping_add(1), from: self.from }
    }
}

/// Expands `coded` into `out`; how many bytes came. Damaged codes end it.
///
/// Single bytes and strings go the same way, without a branch between them that no processor
/// could foresee.
pub(super) fn expand(coded: &[u8], out: &mut [u8]) -> usize {
    let mut table = vec![Entry::default(); 4096];
    // A fixed length, so that no index of 12 bits needs checking.
    let Some(table) = table.first_chunk_mut::<4096>() else { return 0 };
    for (entry, byte) in table.iter_mut().zip(0..256) {
        *entry = Entry { bytes: byte, length: 1, from: 0 };
    }
    let (mut next, mut width) = (FIRST, 9u32);
    let (mut window, mut count) = (0u64, 0u32);
    let mut read = 0;
    let mut written = 0;
    // The string written last; of no length after a clear code.
    let mut before = Entry::default();
    while written < out.len() {
        if count < width {
            if let Some(bytes) = coded.get(read..).and_then(<[u8]>::first_chunk::<4>) {
                // Fewer than 12 bits are left: 32 more fit.
                window |=
                    u64::from(u32::from_be_bytes(*bytes)) << (32u32.wrapping_sub(count) & 63);
                count = count.wrapping_add(32);
                read = read.wrapping_add(4);
            } else {
                let Some(&byte) = coded.get(read) else { return written };
                window |= u64::from(byte) << (56 - count);
                count += 8;
                read += 1;
                continue;
            }
        }
        let code = (window >> (64u32.wrapping_sub(width) & 63)) as usize & 4095;
        window <<= width & 15;
        count = count.wrapping_sub(width);
        if code == CLEAR {
            (next, width, before) = (FIRST, 9, Entry::default());
            continue;
        }
        if code == END {
            return written;
        }
        let entry = if code < next {
            table[code]
        } else if code == next && before.length > 0 {
            // The string being made: the last one and its own first byte.
            before.grown(before.bytes)
        } else {
            return written;
        };
        let room = &mut out[written..];
        let long = (entry.length as usize).min(room.len());
        if let Some(to) = room.first_chunk_mut::<8>() {
            *to = entry.bytes.to_le_bytes();
        } else {
            for (to, byte) in room.iter_mut().zip(entry.bytes.to_le_bytes()) {
                *to = byte;
            }
        }
        if long > 8 {
            for k in 8..long {
                out[written + k] = out[entry.from as usize + k];
            }
        }
        if before.length > 0 && next < 4096 {
            table[next & 4095] = before.grown(entry.bytes);
            next = next.wrapping_add(1);
            if next.wrapping_add(1) >> (width & 15) != 0 && width < 12 {
                width += 1;
            }
        }
        before = Entry { from: written as u32, ..entry };
        written = written.wrapping_add(long);
    }
    written
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Source: TIFF 6.0 section 13, the worked example: 7 7 7 8 8 7 7 6 6 as the codes
    /// clear 7 258 8 8 258 6 6 end.
    #[test]
    fn the_published_example() {
        let codes = [256u64, 7, 258, 8, 8, 258, 6, 6, 257];
        let (mut bytes, mut window, mut count) = (Vec::new(), 0u64, 0);
        for code in codes {
            window = window << 9 | code;
            count += 9;
            while count >= 8 {
                bytes.push((window >> (count - 8)) as u8);
                count -= 8;
            }
        }
        bytes.push((window << (8 - count)) as u8);
        let mut out = [0; 9];
        assert_eq!(expand(&bytes, &mut out), 9, "all nine come out");
        assert_eq!(out, [7, 7, 7, 8, 8, 7, 7, 6, 6], "in order");
    }

    #[test]
    fn nonsense_ends_it() {
        let mut out = [0; 64];
        for first in 0..=255u8 {
            let coded: Vec<u8> = (0..40u8).map(|k| k.wrapping_mul(37) ^ first).collect();
            assert!(expand(&coded, &mut out) <= 64, "never beyond its room");
        }
    }
}
