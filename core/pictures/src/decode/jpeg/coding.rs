//! Entropy-coded data to coefficients: a row of units at a time where every component comes in
//! one sequential scan, else into a store that later scans refine.
//! Source: ITU-T T.81 annexes F and G.

use super::blocks::{Band, Block, Part};
use super::huffman::{Bits, Huffman};
use super::markers::{Frame, Scan, Stop, damaged};

/// The tables one component's sequential blocks are read with.
fn tables(scan: &Scan) -> Result<Vec<(usize, &Huffman, &Huffman)>, Stop> {
    let pairs = scan.parts.iter().map(|(index, dc, ac)| match (dc, ac) {
        (Some(dc), Some(ac)) => Ok((*index, dc.as_ref(), ac.as_ref())),
        _ => damaged("a code table is missing"),
    });
    pairs.collect()
}

/// Reads the one scan of a sequential picture, a row of units at a time.
pub(super) struct Sequential<'a> {
    bits: Bits<'a>,
    scan: &'a Scan,
    parts: &'a [Part],
    units: usize,
    since_restart: usize,
    before: [i32; 4],
}

impl<'a> Sequential<'a> {
    pub(super) fn new(
        data: &'a [u8],
        frame: &Frame,
        scan: &'a Scan,
        parts: &'a [Part],
    ) -> Self {
        Self {
            bits: Bits::new(data, scan.start),
            scan,
            parts,
            units: frame.mcus().0,
            since_restart: 0,
            before: [0; 4],
        }
    }

    /// The next row of units into `band`, which must be clear.
    pub(super) fn read(&mut self, band: &mut Band) -> Result<(), Stop> {
        let tables = tables(self.scan)?;
        for unit in 0..self.units {
            if self.scan.restart > 0 && self.since_restart == self.scan.restart {
                if !self.bits.restart() {
                    return damaged("it ends early");
                }
                self.before = [0; 4];
                self.since_restart = 0;
            }
            self.since_restart += 1;
            for &(index, dc, ac) in &tables {
                let part = &self.parts[index];
                let plane = &mut band.planes[index];
                for y in 0..part.v {
                    for x in 0..part.h {
                        let Some(mut block) = Block::at(plane, part, unit * part.h + x, y)
                        else {
                            return damaged("a block lies outside the picture");
                        };
                        let difference = self.bits.dc(dc)?;
                        self.before[index] = self.before[index].wrapping_add(difference);
                        block.put(0, self.before[index]);
                        read_ac(&mut self.bits, ac, |k, value| block.put(k, value))?;
                    }
                }
            }
        }
        if self.bits.is_over() { damaged("it ends early") } else { Ok(()) }
    }
}

/// The AC coefficients of one sequential block.
#[inline]
fn read_ac(
    bits: &mut Bits<'_>,
    table: &Huffman,
    mut put: impl FnMut(usize, i32),
) -> Result<(), Stop> {
    let mut k = 1;
    while k < 64 {
        let (run, value) = bits.ac(table)?;
        k += run;
        if value == 0 {
            if run < 15 {
                return Ok(());
            }
        } else if k < 64 {
            // Some encoders write one too many: other readers drop it, too.
            put(k, value);
        }
        k += 1;
    }
    Ok(())
}

/// All coefficients of one component that are kept, and which of all are not zero.
pub(super) struct Store<'a> {
    part: &'a Part,
    values: Vec<i16>,
    nonzero: Vec<u64>,
    /// Blocks a scan of this component alone holds.
    own: (usize, usize),
}

/// The state that runs from block to block of one scan.
#[derive(Default)]
struct Running {
    before: i32,
    /// Blocks still to come that hold nothing new.
    empty: usize,
}

fn bounded(value: i32) -> i16 {
    i16::try_from(value.clamp(-32768, 32767)).unwrap_or(0)
}

impl<'a> Store<'a> {
    /// Bytes a store of this part takes.
    pub(super) fn bytes(part: &Part, units_down: usize) -> usize {
        (part.across * part.v).saturating_mul(units_down).saturating_mul(part.kept() * 2 + 8)
    }

    pub(super) fn new(part: &'a Part, frame: &Frame, index: usize) -> Self {
        let blocks = part.across * part.v * frame.mcus().1;
        Self {
            part,
            values: vec![0; blocks * part.kept()],
            nonzero: vec![0; blocks],
            own: frame.own_blocks(&frame.components[index]),
        }
    }

    fn set(&mut self, block: usize, k: usize, value: i32) {
        self.nonzero[block] |= 1 << (k & 63);
        if let Some(slot) = self.part.slot(k) {
            self.values[block * self.part.kept() + slot] = bounded(value);
        }
    }

    /// Adds a bit to a coefficient, away from zero.
    fn refine(&mut self, block: usize, k: usize, bit: i32) {
        if let Some(slot) = self.part.slot(k) {
            let value = &mut self.values[block * self.part.kept() + slot];
            let change = if *value < 0 { -bit } else { bit };
            *value = bounded(i32::from(*value) + change);
        }
    }

    fn block(
        &mut self,
        bits: &mut Bits<'_>,
        scan: &Scan,
        part: (Option<&Huffman>, Option<&Huffman>),
        block: usize,
        run: &mut Running,
    ) -> Result<(), Stop> {
        let missing = || Stop::Damaged("a code table is missing".into());
        if scan.from == 0 {
            if scan.high > 0 {
                if bits.bits(1) == 1 {
                    self.nonzero[block] |= 1;
                    let value = &mut self.values[block * self.part.kept()];
                    *value |= 1 << scan.low;
                }
                return Ok(());
            }
            run.before = run.before.wrapping_add(bits.dc(part.0.ok_or_else(missing)?)?);
            self.set(block, 0, run.before.wrapping_shl(scan.low));
            if scan.to > 0 {
                let ac = part.1.ok_or_else(missing)?;
                return read_ac(bits, ac, |k, value| self.set(block, k, value));
            }
            return Ok(());
        }
        let ac = part.1.ok_or_else(missing)?;
        if scan.high > 0 {
            self.ac_refining(bits, scan, ac, block, run)
        } else {
            self.ac_first(bits, scan, ac, block, run)
        }
    }

    fn ac_first(
        &mut self,
        bits: &mut Bits<'_>,
        scan: &Scan,
        table: &Huffman,
        block: usize,
        run: &mut Running,
    ) -> Result<(), Stop> {
        if run.empty > 0 {
            run.empty -= 1;
            return Ok(());
        }
        let mut k = scan.from;
        while k <= scan.to {
            let (zeros, value) = bits.ac(table)?;
            if value == 0 && zeros < 15 {
                run.empty = many(bits, zeros) - 1;
                return Ok(());
            }
            k += zeros;
            if value != 0 && k <= scan.to {
                self.set(block, k, value << scan.low);
            }
            k += 1;
        }
        Ok(())
    }

    fn ac_refining(
        &mut self,
        bits: &mut Bits<'_>,
        scan: &Scan,
        table: &Huffman,
        block: usize,
        run: &mut Running,
    ) -> Result<(), Stop> {
        let step = 1 << scan.low;
        let mut k = scan.from;
        while run.empty == 0 && k <= scan.to {
            let (mut zeros, value) = bits.ac(table)?;
            if value == 0 && zeros < 15 {
                run.empty = many(bits, zeros);
                break;
            }
            // Coefficients known before are refined on the way; only zeros count.
            while k <= scan.to {
                if self.nonzero[block] >> k & 1 == 1 {
                    if bits.bits(1) == 1 {
                        self.refine(block, k, step);
                    }
                } else if zeros == 0 {
                    if value != 0 {
                        self.set(block, k, value.signum() * step);
                    }
                    k += 1;
                    break;
                } else {
                    zeros -= 1;
                }
                k += 1;
            }
        }
        if run.empty > 0 {
            run.empty -= 1;
            let mut known = if k > 63 { 0 } else { self.nonzero[block] >> k << k };
            while known != 0 {
                let k = usize::try_from(known.trailing_zeros()).unwrap_or(63);
                if k > scan.to {
                    break;
                }
                known &= known - 1;
                if bits.bits(1) == 1 {
                    self.refine(block, k, step);
                }
            }
        }
        Ok(())
    }

    /// Puts the blocks of one row of units into `band`'s plane `index`.
    pub(super) fn fill(&self, band: &mut Band, index: usize, row: usize) {
        let Part { v, across, .. } = *self.part;
        let kept = self.part.kept();
        for y in 0..v {
            for x in 0..across {
                let at = (row * v + y) * across + x;
                let Some(mut block) = Block::at(&mut band.planes[index], self.part, x, y)
                else {
                    return;
                };
                let values = &self.values[at * kept..(at + 1) * kept];
                let mut nonzero = self.nonzero[at];
                while nonzero != 0 {
                    let k = usize::try_from(nonzero.trailing_zeros()).unwrap_or(63);
                    nonzero &= nonzero - 1;
                    if let Some(&value) = self.part.slot(k).and_then(|slot| values.get(slot)) {
                        block.put(k, i32::from(value));
                    }
                }
            }
        }
    }
}

/// How many blocks an end-of-blocks symbol stands for.
fn many(bits: &mut Bits<'_>, size: usize) -> usize {
    let extra = bits.bits(u32::try_from(size).unwrap_or(0));
    (1 << size) + usize::try_from(extra).unwrap_or(0)
}

/// Restart markers of one scan.
struct Restarts {
    every: usize,
    since: usize,
}

impl Restarts {
    /// Before each unit; `true` when the state starts afresh.
    fn due(&mut self, bits: &mut Bits<'_>) -> Result<bool, Stop> {
        let due = self.every > 0 && self.since == self.every;
        if due {
            if !bits.restart() {
                return damaged("it ends early");
            }
            self.since = 0;
        }
        self.since += 1;
        Ok(due)
    }
}

/// Reads a scan of one component.
pub(super) fn read_alone(
    data: &[u8],
    scan: &Scan,
    store: &mut Store<'_>,
    mut go_on: impl FnMut() -> bool,
) -> Result<(), Stop> {
    let Some((_, dc, ac)) = scan.parts.first() else { return Ok(()) };
    let tables = (dc.as_deref(), ac.as_deref());
    let mut bits = Bits::new(data, scan.start);
    let mut restarts = Restarts { every: scan.restart, since: 0 };
    let mut run = Running::default();
    let (across, down) = store.own;
    for y in 0..down {
        if !go_on() {
            return Ok(());
        }
        for x in 0..across {
            if restarts.due(&mut bits)? {
                run = Running::default();
            }
            let block = y * store.part.across + x;
            store.block(&mut bits, scan, tables, block, &mut run)?;
        }
        if bits.is_over() {
            return damaged("it ends early");
        }
    }
    Ok(())
}

/// Reads a scan of several components.
pub(super) fn read_together(
    data: &[u8],
    frame: &Frame,
    scan: &Scan,
    stores: &mut [Store<'_>],
    mut go_on: impl FnMut() -> bool,
) -> Result<(), Stop> {
    let mut bits = Bits::new(data, scan.start);
    let mut restarts = Restarts { every: scan.restart, since: 0 };
    let mut runs: [Running; 4] = Default::default();
    let (across, down) = frame.mcus();
    for row in 0..down {
        if !go_on() {
            return Ok(());
        }
        for unit in 0..across {
            if restarts.due(&mut bits)? {
                runs = Default::default();
            }
            for (index, dc, ac) in &scan.parts {
                let store = &mut stores[*index];
                let tables = (dc.as_deref(), ac.as_deref());
                let Part { h, v, across, .. } = *store.part;
                for y in 0..v {
                    for x in 0..h {
                        let block = (row * v + y) * across + unit * h + x;
                        store.block(&mut bits, scan, tables, block, &mut runs[*index])?;
                    }
                }
            }
        }
        if bits.is_over() {
            return damaged("it ends early");
        }
    }
    Ok(())
}
