//! What a monitor says of itself: its EDID, of which the first block is enough here.
//!
//! Source: VESA Enhanced Extended Display Identification Data Standard, Release A, Revision 2
//! (E-EDID A2, EDID structure version 1 revision 4), section 3; numbers of its parts are from
//! memory.

/// Bytes of the first block.
const BLOCK: usize = 128;
/// What it begins with. Source: E-EDID A2, 3.3.
const HEADER: [u8; 8] = [0, 0xff, 0xff, 0xff, 0xff, 0xff, 0xff, 0];
/// Where its four descriptors of 18 bytes lie. Source: E-EDID A2, 3.10.
const DESCRIPTORS: [usize; 4] = [54, 72, 90, 108];
/// Tags of descriptors. Source: E-EDID A2, 3.10.3.
const SERIAL: u8 = 0xff;
const NAME: u8 = 0xfc;

/// What a monitor says of itself.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Edid {
    /// The three letters of its maker.
    pub maker: String,
    /// The maker's number for the model.
    pub product: u16,
    /// The name of the model.
    pub name: Option<String>,
    /// Its serial number: the text on its label, else the number in its data.
    pub serial: Option<String>,
    /// The picture's width and height in millimetres.
    pub mm: Option<(u32, u32)>,
    /// The pixels it has across and down.
    pub pixels: Option<(u32, u32)>,
}

impl Edid {
    /// Reads the first block; `None` where it is none, or its sum is wrong.
    pub fn read(bytes: &[u8]) -> Option<Self> {
        let block = bytes.get(..BLOCK)?;
        let sum = block.iter().fold(0_u8, |sum, byte| sum.wrapping_add(*byte));
        if !block.starts_with(&HEADER) || sum != 0 {
            return None;
        }
        let mut edid = Self {
            maker: maker(block[8], block[9]),
            product: u16::from_le_bytes([block[10], block[11]]),
            name: None,
            serial: number(block),
            mm: centimetres(block[21], block[22]),
            pixels: None,
        };
        for (index, at) in DESCRIPTORS.into_iter().enumerate() {
            let descriptor = &block[at..at + 18];
            // A timing begins with its pixel clock, any other descriptor with zeros.
            if descriptor[0] != 0 || descriptor[1] != 0 {
                if index == 0 {
                    edid.pixels = pixels(descriptor);
                    // In millimetres, which is finer than the whole centimetres before.
                    edid.mm = millimetres(descriptor).or(edid.mm);
                }
                continue;
            }
            match descriptor[3] {
                NAME => edid.name = text(&descriptor[5..]),
                SERIAL => edid.serial = text(&descriptor[5..]).or(edid.serial),
                _ => {}
            }
        }
        Some(edid)
    }
}

/// Three letters in five bits each, A as 1. Source: E-EDID A2, 3.4.1.
fn maker(high: u8, low: u8) -> String {
    let packed = u16::from_be_bytes([high, low]);
    [packed >> 10, packed >> 5, packed]
        .into_iter()
        .filter_map(|five| u8::try_from(five & 31).ok())
        .map(|five| char::from(b'@' + five))
        .collect()
}

/// The serial number of 32 bits; zero stands for none. Source: E-EDID A2, 3.4.3.
fn number(block: &[u8]) -> Option<String> {
    let number = u32::from_le_bytes([block[12], block[13], block[14], block[15]]);
    (number != 0).then(|| number.to_string())
}

/// Width and height in whole centimetres; a zero in one says that the other is no size.
/// Source: E-EDID A2, 3.6.2.
fn centimetres(width: u8, height: u8) -> Option<(u32, u32)> {
    (width > 0 && height > 0).then(|| (u32::from(width) * 10, u32::from(height) * 10))
}

/// The size of a timing's picture. Source: E-EDID A2, 3.10.2, bytes 12 to 14.
fn millimetres(timing: &[u8]) -> Option<(u32, u32)> {
    let width = u32::from(timing[12]) | u32::from(timing[14] >> 4) << 8;
    let height = u32::from(timing[13]) | u32::from(timing[14] & 15) << 8;
    // Some write the shape of the picture there, as 16 by 9.
    (width > 50 && height > 50).then_some((width, height))
}

/// The pixels of a timing. Source: E-EDID A2, 3.10.2, bytes 2, 4, 5 and 7.
fn pixels(timing: &[u8]) -> Option<(u32, u32)> {
    let across = u32::from(timing[2]) | u32::from(timing[4] >> 4) << 8;
    let down = u32::from(timing[5]) | u32::from(timing[7] >> 4) << 8;
    (across > 0 && down > 0).then_some((across, down))
}

/// Up to 13 characters, ended by a line feed, filled up with spaces. Source: E-EDID A2, 3.10.3.
fn text(bytes: &[u8]) -> Option<String> {
    let ended = bytes.split(|byte| *byte == b'\n').next().unwrap_or_default();
    let text: String = ended
        .iter()
        .filter(|byte| (0x20..0x7f).contains(*byte))
        .map(|b| char::from(*b))
        .collect();
    let text = text.trim();
    (!text.is_empty()).then(|| text.to_owned())
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A block by the tables of the standard, of an invented monitor: 2560 by 1440 pixels on
    /// 597 by 336 mm.
    fn block() -> Vec<u8> {
        let mut block = vec![0; BLOCK];
        block[..8].copy_from_slice(&HEADER);
        // "SGE": S is 19, G is 7, E is 5.
        let packed: u16 = 19 << 10 | 7 << 5 | 5;
        block[8..10].copy_from_slice(&packed.to_be_bytes());
        block[10..12].copy_from_slice(&0x1234_u16.to_le_bytes());
        block[12..16].copy_from_slice(&70_811_u32.to_le_bytes());
        block[18..20].copy_from_slice(&[1, 4]);
        block[21..23].copy_from_slice(&[60, 34]);
        let timing = &mut block[54..72];
        timing[..2].copy_from_slice(&24_150_u16.to_le_bytes());
        // 2560 is 0xa00, 1440 is 0x5a0; 597 is 0x255, 336 is 0x150.
        (timing[2], timing[4]) = (0x00, 0xa0);
        (timing[5], timing[7]) = (0xa0, 0x50);
        (timing[12], timing[13], timing[14]) = (0x55, 0x50, 0x21);
        block[72..90].copy_from_slice(b"\0\0\0\xff\0B-0042\n      ");
        block[90..108].copy_from_slice(b"\0\0\0\xfc\0Studio 27\n   ");
        block[111] = 0x10;
        sealed(block)
    }

    fn sealed(mut block: Vec<u8>) -> Vec<u8> {
        block[127] = 0;
        let sum = block.iter().fold(0_u8, |sum, byte| sum.wrapping_add(*byte));
        block[127] = sum.wrapping_neg();
        block
    }

    #[test]
    fn a_block_by_the_standards_tables() {
        let wanted = Edid {
            maker: "SGE".to_owned(),
            product: 0x1234,
            name: Some("Studio 27".to_owned()),
            serial: Some("B-0042".to_owned()),
            mm: Some((597, 336)),
            pixels: Some((2560, 1440)),
        };
        assert_eq!(Edid::read(&block()), Some(wanted));
    }

    #[test]
    fn what_is_left_out_is_read_from_elsewhere_or_is_none() {
        // No text for the serial: the number stands in for it.
        let mut plain = block();
        plain[75] = 0x10;
        let plain = Edid::read(&sealed(plain)).unwrap();
        assert_eq!(plain.serial.as_deref(), Some("70811"));
        // A size that is only the picture's shape: whole centimetres stand in for it.
        let mut shape = block();
        (shape[66], shape[67], shape[68]) = (16, 9, 0);
        assert_eq!(Edid::read(&sealed(shape)).unwrap().mm, Some((600, 340)));
        // A projector has no size.
        let mut projector = block();
        (projector[66], projector[67], projector[68]) = (0, 0, 0);
        (projector[21], projector[22]) = (0, 0);
        assert_eq!(Edid::read(&sealed(projector)).unwrap().mm, None);
        // A number of zero is none.
        let mut nameless = block();
        nameless[12..16].fill(0);
        (nameless[75], nameless[93]) = (0x10, 0x10);
        let nameless = Edid::read(&sealed(nameless)).unwrap();
        assert_eq!((nameless.name, nameless.serial), (None, None));
    }

    #[test]
    fn what_is_no_block_is_none() {
        assert_eq!(Edid::read(&[]), None);
        assert_eq!(Edid::read(&block()[..127]), None);
        let mut spoilt = block();
        spoilt[60] ^= 1;
        assert_eq!(Edid::read(&spoilt), None, "its sum is wrong");
        let mut other = block();
        other[0] = 1;
        assert_eq!(Edid::read(&sealed(other)), None, "its header is wrong");
    }
}
