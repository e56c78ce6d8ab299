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

/// Expands `coded` into `out`; how many bytes came. Damaged codes end it.
///
/// Each string in the table is a place in what was already written: a new one is the string
/// before it and the one byte that followed.
pub(super) fn expand(coded: &[u8], out: &mut [u8]) -> usize {
    let mut table = [(0u32, 0u32); 4096];
    let (mut next, mut width) = (FIRST, 9u32);
    let (mut window, mut count) = (0u64, 0u32);
    let mut read = 0;
    let mut written = 0;
    // Where the string before was written, and how long it is; none after a clear code.
    let mut before: Option<(usize, usize)> = None;
    while written < out.len() {
        if count < width {
            if let Some(bytes) = coded.get(read..read + 4) {
                let word = u32::from_be_bytes([bytes[0], bytes[1], bytes[2], bytes[3]]);
                window |= u64::from(word) << (32 - count);
                count += 32;
                read += 4;
            } else {
                let Some(&byte) = coded.get(read) else { return written };
                window |= u64::from(byte) << (56 - count);
                count += 8;
                read += 1;
                continue;
            }
        }
        let code = (window >> (64 - width)) as usize;
        window <<= width;
        count -= width;
        if code == CLEAR {
            (next, width, before) = (FIRST, 9, None);
            continue;
        }
        if code == END {
            return written;
        }
        let start = written;
        if code < CLEAR {
            out[written] = code as u8;
            written += 1;
        } else {
            // The string being made is the one before and its own first byte, not yet there.
            let making = code >= next;
            let (from, length) = if making {
                let Some((from, length)) = before.filter(|_| code == next) else {
                    return written;
                };
                (from, length + 1)
            } else {
                let (from, length) = table[code & 4095];
                (from as usize, length as usize)
            };
            let length = length.min(out.len() - written);
            // Most strings are short: eight bytes at once, the rest overwritten later.
            let ahead = out.get(from..from + 8).and_then(<[u8]>::first_chunk::<8>).copied();
            match (ahead, out.get_mut(written..written + 8)) {
                (Some(eight), Some(to)) if length <= 8 && !making => to.copy_from_slice(&eight),
                _ => {
                    for k in 0..length {
                        out[written + k] = out[from + k];
                    }
                }
            }
            written += length;
        }
        if let Some((from, length)) = before
            && next < 4096
        {
            table[next] = (from as u32, length as u32 + 1);
            next += 1;
            if next + 1 >= 1 << width && width < 12 {
                width += 1;
            }
        }
        before = Some((start, written - start));
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
