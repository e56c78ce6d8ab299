//! What lies behind and before a mat: papers, hinge tissues, glazing, fillers, frames, bags.
//! A plan keeps a snapshot of each thing it uses, as of its boards.

use super::Colour;
use crate::geometry::Size;
use crate::length::Length;

/// How much paper grows: millionths of a percent of its length for each percent of relative
/// humidity. 0.015 % per % RH is 15 000.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug, Default, Hash)]
pub struct Rate(u32);

impl Rate {
    /// No paper grows by more: 1 % of its length per % RH.
    pub const MOST: u32 = 1_000_000;

    /// From millionths of a percent per % RH; `None` above [`Rate::MOST`].
    pub const fn from_millionths(millionths: u32) -> Option<Self> {
        if millionths <= Self::MOST { Some(Self(millionths)) } else { None }
    }

    /// For figures known here.
    pub(crate) const fn known(millionths: u32) -> Self {
        Self(millionths)
    }

    /// Millionths of a percent per % RH.
    pub const fn millionths(self) -> u32 {
        self.0
    }

    /// Reads `0.015`: at most six decimals.
    pub fn read(text: &str) -> Option<Self> {
        decimals(text.trim(), 6).and_then(Self::from_millionths)
    }

    /// As `0.015`.
    pub fn text(self) -> String {
        written(self.0, 6)
    }
}

/// A relative humidity, in tenths of a percent.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug, Hash)]
pub struct Humidity(u16);

impl Humidity {
    /// From tenths of a percent; `None` above 100 %.
    pub const fn from_tenths(tenths: u16) -> Option<Self> {
        if tenths <= 1000 { Some(Self(tenths)) } else { None }
    }

    /// Whole percents known here; at most 100.
    pub(crate) const fn percent(percent: u16) -> Self {
        Self(percent * 10)
    }

    /// In tenths of a percent.
    pub const fn tenths(self) -> u16 {
        self.0
    }

    /// Reads `50` or `47.5`, with or without a percent sign.
    pub fn read(text: &str) -> Option<Self> {
        let number = text.trim().trim_end_matches('%').trim_end();
        u16::try_from(decimals(number, 1)?).ok().and_then(Self::from_tenths)
    }

    /// As `50` or `47.5`.
    pub fn text(self) -> String {
        written(u32::from(self.0), 1)
    }
}

/// A plain decimal number times 10 to the `places`.
fn decimals(text: &str, places: usize) -> Option<u32> {
    let (whole, part) = text.split_once('.').unwrap_or((text, ""));
    let digits = |text: &str| text.bytes().all(|b| b.is_ascii_digit());
    let nothing = whole.is_empty() && part.is_empty();
    if nothing || whole.len() > 4 || part.len() > places || !digits(whole) || !digits(part) {
        return None;
    }
    format!("{whole}{part:0<places$}").parse().ok()
}

fn written(number: u32, places: usize) -> String {
    let scale = 10_u32.pow(u32::try_from(places).unwrap_or(0));
    let text = format!("{}.{:0places$}", number / scale, number % scale);
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}

macro_rules! keyed {
    ($(#[$doc:meta])* $name:ident { $($(#[$vdoc:meta])* $variant:ident = $key:literal, $words:literal;)* }) => {
        $(#[$doc])*
        #[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug, Default)]
        pub enum $name { $($(#[$vdoc])* $variant,)* }

        impl $name {
            /// Every one of them.
            pub const ALL: &'static [Self] = &[$(Self::$variant,)*];

            /// How it is written in tables and plans.
            pub const fn key(self) -> &'static str {
                match self { $(Self::$variant => $key,)* }
            }

            /// In the trade's words.
            pub const fn name(self) -> &'static str {
                match self { $(Self::$variant => $words,)* }
            }

            /// From its key.
            pub fn from_key(key: &str) -> Option<Self> {
                Self::ALL.iter().copied().find(|one| one.key() == key)
            }
        }
    };
}
pub(crate) use keyed;

keyed! {
    /// What a sheet of paper is.
    Fibre {
        /// Paper of wood or mixed fibre, no plastic in it.
        Plain = "fibre", "fibre";
        /// Paper between two films of plastic.
        ResinCoated = "resin-coated", "resin-coated";
        /// Cotton.
        Cotton = "cotton", "cotton";
        /// Fibre paper under a layer of baryta.
        Baryta = "baryta", "baryta";
        /// Thin long-fibred paper.
        Washi = "washi", "washi";
        /// Not known.
        #[default]
        Unknown = "unknown", "not known";
    }
}

keyed! {
    /// How the picture was made, as far as it matters to what touches it.
    Process {
        /// Printed with an ink jet.
        Inkjet = "inkjet", "inkjet print";
        /// Colour developed in a darkroom (chromogenic, dye transfer).
        Colour = "darkroom-colour", "darkroom colour print";
        /// Silver gelatine.
        Silver = "silver", "silver gelatine print";
        /// Albumen, cyanotype and others that alkali harms.
        AlkaliTender = "alkali-tender", "print that alkali harms";
        /// Pressed or drawn: etching, woodcut, lithograph.
        Pressed = "pressed", "pressed or drawn";
        /// Not known.
        #[default]
        Unknown = "unknown", "not known";
    }
}

impl Process {
    /// Whether boards that touch it should be unbuffered. Source: conservation leaflets on
    /// dye transfer, albumen and cyanotype; from memory.
    pub const fn needs_unbuffered(self) -> bool {
        matches!(self, Self::Colour | Self::AlkaliTender)
    }
}

/// A paper as it was when it was chosen.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct Paper {
    /// Its entry in the table; empty for one made up on the spot.
    pub id: String,
    /// What it is called.
    pub name: String,
    /// What it is.
    pub fibre: Fibre,
    /// How the picture on it was made.
    pub process: Process,
    /// Grams per square metre; `None` where not known.
    pub mass_gsm: Option<u32>,
    /// How thick a sheet is.
    pub thickness: Option<Length>,
    /// Its white.
    pub white: Option<Colour>,
    /// Growth along the grain.
    pub along: Option<Rate>,
    /// Growth across the grain.
    pub across: Option<Rate>,
    /// Whether it bears water-based adhesive.
    pub water_based: bool,
    /// Whether it takes pencil on its back.
    pub pencil: bool,
    /// Where its figures come from.
    pub origin: String,
}

/// A hinge tissue or tape.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct Tissue {
    /// Its entry in the table.
    pub id: String,
    /// What it is called.
    pub name: String,
    /// How wide the roll is; `None` for sheets, torn to size.
    pub width: Option<Length>,
    /// What a strip of it bears, in newtons per metre of its width.
    pub tensile_n_per_m: Option<u32>,
    /// What its adhesive bears in shear, in pascals (newtons per square metre).
    pub shear_pa: Option<u32>,
    /// Whether water takes it off again.
    pub reversible: bool,
    /// Whether it sticks by pressure; else it is pasted and wets the paper.
    pub pressure_sensitive: bool,
    /// Where its figures come from.
    pub origin: String,
}

/// What covers the picture in a frame.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct Glazing {
    /// Its entry in the table.
    pub id: String,
    /// What it is called.
    pub name: String,
    /// How thick it is.
    pub thickness: Length,
    /// Kilograms per cubic metre.
    pub density_kg_m3: u32,
    /// Whether it breaks as glass does.
    pub glass: bool,
    /// Where its figures come from.
    pub origin: String,
}

/// A board that fills the frame behind the backing.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct Filler {
    /// Its entry in the table.
    pub id: String,
    /// What it is called.
    pub name: String,
    /// How thick it is.
    pub thickness: Length,
    /// Grams per square metre.
    pub mass_gsm: u32,
    /// Where its figures come from.
    pub origin: String,
}

keyed! {
    /// What a moulding looks like across its face, from the outer edge inwards.
    Profile {
        /// Level all over.
        #[default]
        Flat = "flat", "flat";
        /// Half round.
        Rounded = "rounded", "rounded";
        /// Sloping down to the picture.
        Bevelled = "bevelled", "bevelled";
        /// Level, with a step down to the picture.
        Stepped = "stepped", "stepped";
        /// Hollow, with a bead at the picture.
        Cove = "cove", "cove";
    }
}

keyed! {
    /// What a moulding's surface is.
    Surface {
        /// Wood, its grain to be seen.
        #[default]
        Wood = "wood", "wood";
        /// Painted or lacquered.
        Painted = "painted", "painted";
        /// Metal, or leaf of metal.
        Metal = "metal", "metal";
    }
}

/// A frame's moulding.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct Frame {
    /// Its entry in the table.
    pub id: String,
    /// What it is called.
    pub name: String,
    /// How deep its rabbet is; `None` where not measured.
    pub rabbet_depth: Option<Length>,
    /// How far its lip reaches over the rabbet: the rabbet's width.
    pub lip: Length,
    /// How wide its face is, the lip included.
    pub face: Length,
    /// Grams per metre of its length.
    pub mass_g_per_m: u32,
    /// Its colour; `None` where not given.
    pub colour: Option<Colour>,
    /// What it looks like across its face.
    pub profile: Profile,
    /// What its surface is.
    pub surface: Surface,
    /// Where its figures come from.
    pub origin: String,
}

/// A bag for a finished piece.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct Bag {
    /// Its entry in the table.
    pub id: String,
    /// What it is called.
    pub name: String,
    /// Inside, flap closed.
    pub size: Size,
    /// Where its figures come from.
    pub origin: String,
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn rates_and_humidities() {
        let rate = |text: &str| Rate::read(text).map(Rate::millionths);
        assert_eq!(rate("0.015"), Some(15_000));
        assert_eq!(rate(".0008"), Some(800));
        assert_eq!(rate("1"), Some(1_000_000));
        for wrong in ["", ".", "1.1", "-0.01", "0.0000001", "1e-2", "abc", "0,1"] {
            assert_eq!(rate(wrong), None, "{wrong}");
        }
        assert_eq!(Rate::known(15_000).text(), "0.015");
        let humidity = |text: &str| Humidity::read(text).map(Humidity::text);
        assert_eq!(humidity("47.5 %"), Some("47.5".to_owned()));
        assert_eq!(humidity("100"), Some("100".to_owned()));
        for wrong in ["100.1", "-1", "fifty", "50.05"] {
            assert_eq!(humidity(wrong), None, "{wrong}");
        }
    }
}
