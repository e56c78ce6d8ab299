//! Code tables and the bits they are read from. Source: ITU-T T.81 annexes C and F.
#![allow(
    clippy::as_conversions,
    clippy::cast_possible_truncation,
    clippy::cast_possible_wrap,
    clippy::cast_sign_loss,
    reason = "bit fields, cut to their width by masks and shifts; the hottest loop there is"
)]

use super::markers::{Stop, damaged};

/// Bits looked at in one step.
const LOOK: u32 = 11;

/// A code table.
///
/// An entry of `fast` is 0 where the code is longer than [`LOOK`] bits. Else its low six bits
/// say how many bits are taken; bit 6 says that the coefficient's own bits are among them, its
/// value in the upper half and its run in the second byte; without bit 6 the second byte is the
/// symbol.
#[derive(Debug)]
pub(super) struct Huffman {
    fast: Box<[u32; 1 << LOOK]>,
    /// For codes of each length: the first code beyond them, left-aligned to 16 bits.
    beyond: [u32; 17],
    /// What to add to a code of each length to get its symbol's place.
    offset: [i32; 17],
    symbols: [u8; 256],
}

/// Bit 6 of a fast entry.
const WHOLE: u32 = 0x40;

impl Huffman {
    pub(super) fn new(counts: &[u8; 16], symbols: &[u8], ac: bool) -> Result<Self, Stop> {
        let mut table = Self {
            fast: Box::new([0; 1 << LOOK]),
            beyond: [0; 17],
            offset: [0; 17],
            symbols: [0; 256],
        };
        table.symbols[..symbols.len()].copy_from_slice(symbols);
        let (mut code, mut place) = (0u32, 0usize);
        for length in 1..=16u32 {
            let count = usize::from(counts[length as usize - 1]);
            table.offset[length as usize] = place as i32 - code as i32;
            for _ in 0..count {
                if code >= 1 << length {
                    return damaged("a code table holds too many codes");
                }
                if length <= LOOK {
                    table.fill(code, length, symbols[place], ac);
                }
                code += 1;
                place += 1;
            }
            table.beyond[length as usize] = code << (16 - length);
            code <<= 1;
        }
        Ok(table)
    }

    fn fill(&mut self, code: u32, length: u32, symbol: u8, ac: bool) {
        let spare = LOOK - length;
        let size = if ac { u32::from(symbol & 15) } else { u32::from(symbol) };
        let run = if ac { u32::from(symbol >> 4) } else { 0 };
        for low in 0..1u32 << spare {
            let index = ((code << spare) | low) as usize;
            let whole = size <= spare && (size > 0 || !ac);
            self.fast[index] = if whole {
                let bits = low >> (spare - size);
                let value = extend(bits, size) as u32 & 0xffff;
                value << 16 | run << 8 | WHOLE | (length + size)
            } else {
                u32::from(symbol) << 8 | length
            };
        }
    }
}

/// The value that `size` bits stand for. Source: T.81 F.2.2.1.
#[inline]
pub(super) fn extend(bits: u32, size: u32) -> i32 {
    if size == 0 {
        return 0;
    }
    let negative = bits >> (size - 1) == 0;
    bits as i32 - if negative { (1i32 << size) - 1 } else { 0 }
}

/// The coded bits, stuffing removed. After a marker or the end come zeros.
#[derive(Debug, Clone)]
pub(super) struct Bits<'a> {
    data: &'a [u8],
    position: usize,
    /// The next bits, from the top.
    window: u64,
    /// How many of them are read from the data.
    count: u32,
    /// Zero bytes made up since the data ran out.
    made_up: u32,
}

impl<'a> Bits<'a> {
    pub(super) fn new(data: &'a [u8], position: usize) -> Self {
        Self { data, position, window: 0, count: 0, made_up: 0 }
    }

    /// At least 48 bits ready.
    #[inline]
    fn refill(&mut self) {
        if self.count >= 48 {
            return;
        }
        if let Some(next) = self.data.get(self.position..self.position.wrapping_add(8)) {
            let word = next.iter().fold(0u64, |word, &b| word << 8 | u64::from(b));
            // Exact test for a byte of all ones: none in the word means no stuffing, no marker.
            let ones = 0x0101_0101_0101_0101u64;
            let none = (!word).wrapping_sub(ones) & word & (ones << 7) == 0;
            if none {
                self.window |= word >> self.count;
                let bytes = (64 - self.count) >> 3;
                self.position = self.position.wrapping_add(bytes as usize);
                self.count += bytes << 3;
                return;
            }
        }
        self.refill_slowly();
    }

    #[cold]
    #[inline(never)]
    fn refill_slowly(&mut self) {
        while self.count <= 56 {
            let byte = match self.data.get(self.position) {
                Some(0xff) => match self.data.get(self.position + 1) {
                    Some(0) => {
                        self.position += 2;
                        0xff
                    }
                    _ => self.make_up(),
                },
                Some(&byte) => {
                    self.position += 1;
                    byte
                }
                None => self.make_up(),
            };
            // Bits below the count may already be there: the same ones.
            self.window &= !(u64::MAX >> self.count);
            self.window |= u64::from(byte) << (56 - self.count);
            self.count += 8;
        }
    }

    fn make_up(&mut self) -> u8 {
        self.made_up = self.made_up.saturating_add(1);
        0
    }

    /// Whether what was read lately is made up: the data is over.
    pub(super) fn is_over(&self) -> bool {
        self.made_up > 16 && self.count / 8 + 8 < self.made_up
    }

    #[inline]
    fn take(&mut self, n: u32) -> u32 {
        // In two steps, so that n = 0 is no shift by 64.
        let bits = (self.window >> 1 >> (63 - n)) as u32;
        self.drop_bits(n);
        bits
    }

    #[inline]
    fn drop_bits(&mut self, n: u32) {
        self.window <<= n;
        self.count = self.count.wrapping_sub(n);
    }

    /// `n` plain bits, at most 16.
    #[inline]
    pub(super) fn bits(&mut self, n: u32) -> u32 {
        self.refill();
        self.take(n & 31)
    }

    fn symbol_long(&mut self, table: &Huffman) -> Result<u8, Stop> {
        let next = (self.window >> 48) as u32;
        for length in 1..=16u32 {
            if next < table.beyond[length as usize] {
                let code = (next >> (16 - length)) as i32;
                let place = code + table.offset[length as usize];
                self.drop_bits(length);
                return Ok(table.symbols[(place & 255) as usize]);
            }
        }
        damaged("a code is not in its table")
    }

    /// The next DC difference.
    #[inline]
    pub(super) fn dc(&mut self, table: &Huffman) -> Result<i32, Stop> {
        self.refill();
        let entry = table.fast[(self.window >> (64 - LOOK)) as usize];
        if entry & WHOLE != 0 {
            self.drop_bits(entry & 63);
            return Ok(entry as i32 >> 16);
        }
        let size = u32::from(self.symbol_long(table)?);
        if size > 15 {
            return damaged("a difference is too long");
        }
        Ok(extend(self.take(size), size))
    }

    /// The next AC coefficient: how many zeros before it, and its value (0 for none: with run 15
    /// sixteen zeros, else the end of the block, or of `1 << run` blocks and more).
    #[inline]
    pub(super) fn ac(&mut self, table: &Huffman) -> Result<(usize, i32), Stop> {
        self.refill();
        let entry = table.fast[(self.window >> (64 - LOOK)) as usize];
        if entry & WHOLE != 0 {
            self.drop_bits(entry & 63);
            return Ok(((entry >> 8 & 15) as usize, entry as i32 >> 16));
        }
        let symbol = if entry == 0 {
            self.symbol_long(table)?
        } else {
            self.drop_bits(entry & 63);
            (entry >> 8) as u8
        };
        let size = u32::from(symbol & 15);
        Ok((usize::from(symbol >> 4), extend(self.take(size), size)))
    }

    /// Goes on after the restart marker that is due; `false` if none follows.
    pub(super) fn restart(&mut self) -> bool {
        // Bytes read ahead hold no marker, so the search starts where reading stopped.
        let mut at = self.position;
        loop {
            match self.data.get(at..at + 2) {
                Some([0xff, 0xd0..=0xd7]) => break,
                Some([0xff, 0 | 0xff] | [0..=0xfe, _]) => at += 1,
                Some(_) | None => return false,
            }
        }
        *self = Self::new(self.data, at + 2);
        true
    }
}
