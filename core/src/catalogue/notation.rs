//! A print's number as it is pencilled under the print: 3/25, AP II/V, BAT.

/// What a print is within its edition. Proofs stand outside the count.
/// Source: galleries' print guides.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug, Hash, Default)]
pub enum Kind {
    /// One of the n.
    #[default]
    Numbered,
    /// Artist's proof.
    Artist,
    /// Printer's proof.
    Printer,
    /// Hors commerce: not for sale.
    HorsCommerce,
    /// Bon à tirer: the one the others are matched to.
    BonATirer,
    /// Trial proof.
    Trial,
}

impl Kind {
    /// In the usual order.
    pub const ALL: [Self; 6] = [
        Self::Numbered,
        Self::Artist,
        Self::Printer,
        Self::HorsCommerce,
        Self::BonATirer,
        Self::Trial,
    ];

    /// As in files and on the command line.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Numbered => "numbered",
            Self::Artist => "ap",
            Self::Printer => "pp",
            Self::HorsCommerce => "hc",
            Self::BonATirer => "bat",
            Self::Trial => "tp",
        }
    }

    /// In front of the number; empty for the edition itself.
    pub const fn letters(self) -> &'static str {
        match self {
            Self::Numbered => "",
            Self::Artist => "AP",
            Self::Printer => "PP",
            Self::HorsCommerce => "HC",
            Self::BonATirer => "BAT",
            Self::Trial => "TP",
        }
    }

    /// In words.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Numbered => "numbered print",
            Self::Artist => "artist's proof",
            Self::Printer => "printer's proof",
            Self::HorsCommerce => "hors commerce",
            Self::BonATirer => "bon à tirer",
            Self::Trial => "trial proof",
        }
    }

    /// The kind of that key.
    pub fn of_key(key: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|kind| kind.key() == key)
    }

    /// Whether there is only one of it, which bears no number.
    pub const fn single(self) -> bool {
        matches!(self, Self::BonATirer)
    }
}

/// How proofs are numbered.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug, Hash, Default)]
pub enum Numerals {
    /// AP II/V.
    #[default]
    Roman,
    /// AP 2/5.
    Fraction,
}

impl Numerals {
    /// As in files and on the command line.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Roman => "roman",
            Self::Fraction => "fraction",
        }
    }

    /// The numerals of that key.
    pub fn of_key(key: &str) -> Option<Self> {
        [Self::Roman, Self::Fraction].into_iter().find(|one| one.key() == key)
    }
}

/// A print's place in its edition.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug, Hash, Default)]
pub struct Notation {
    /// What it is.
    pub kind: Kind,
    /// Its number among those of its kind, from 1.
    pub number: u32,
    /// How many of its kind there are to be; 0 where that is left open.
    pub of: u32,
}

impl Notation {
    /// As it is written under the picture: 3/25, AP II/V, BAT.
    pub fn text(self, numerals: Numerals) -> String {
        let Self { kind, number, of } = self;
        if kind.single() {
            return kind.letters().to_owned();
        }
        let figure = |n: u32| match (kind, numerals) {
            (Kind::Numbered, _) | (_, Numerals::Fraction) => n.to_string(),
            (_, Numerals::Roman) => roman(n),
        };
        let mut text = String::from(kind.letters());
        if !text.is_empty() {
            text.push(' ');
        }
        text.push_str(&figure(number));
        if of > 0 {
            text.push('/');
            text.push_str(&figure(of));
        }
        text
    }

    /// What a text such as `3/25`, `AP II/V` or `ap 2/5` says, and how it writes proofs;
    /// `None` where it says nothing of that sort.
    pub fn read(text: &str) -> Option<(Self, Numerals)> {
        let text = text.trim().to_ascii_uppercase();
        let letters = |kind: &Kind| !kind.letters().is_empty();
        let proof = Kind::ALL
            .into_iter()
            .filter(letters)
            .find_map(|kind| text.strip_prefix(kind.letters()).map(|rest| (kind, rest)));
        let (kind, rest) = proof.unwrap_or((Kind::Numbered, text.as_str()));
        let rest = rest.trim();
        if kind.single() {
            let one = Self { kind, number: 1, of: 1 };
            return rest.is_empty().then_some((one, Numerals::Roman));
        }
        let (number, of) = rest.split_once('/').unwrap_or((rest, "0"));
        let (number, of) = (number.trim(), of.trim());
        let plain = |n: &str| n.parse::<u32>().ok();
        if let (Some(number), Some(of)) = (plain(number), plain(of)) {
            let found = Self { kind, number, of };
            return found.possible().then_some((found, Numerals::Fraction));
        }
        if kind == Kind::Numbered {
            return None;
        }
        let of = if of == "0" { Some(0) } else { parse_roman(of) };
        let found = Self { kind, number: parse_roman(number)?, of: of? };
        found.possible().then_some((found, Numerals::Roman))
    }

    /// Whether there can be such a print.
    const fn possible(self) -> bool {
        self.number > 0 && (self.of == 0 || self.number <= self.of)
    }
}

const NUMERALS: [(u32, &str); 13] = [
    (1000, "M"),
    (900, "CM"),
    (500, "D"),
    (400, "CD"),
    (100, "C"),
    (90, "XC"),
    (50, "L"),
    (40, "XL"),
    (10, "X"),
    (9, "IX"),
    (5, "V"),
    (4, "IV"),
    (1, "I"),
];

/// The most that Roman numerals say without a bar over them.
const MOST_ROMAN: u32 = 3999;

/// A number in Roman numerals; zero and what is above 3999 stays in figures.
pub fn roman(number: u32) -> String {
    if number == 0 || number > MOST_ROMAN {
        return number.to_string();
    }
    let (mut left, mut text) = (number, String::new());
    for (value, letters) in NUMERALS {
        while left >= value {
            text.push_str(letters);
            left -= value;
        }
    }
    text
}

/// The number that well-formed Roman numerals stand for.
fn parse_roman(text: &str) -> Option<u32> {
    let (mut rest, mut number) = (text, 0_u32);
    for (value, letters) in NUMERALS {
        while let Some(shorter) = rest.strip_prefix(letters) {
            number = number.checked_add(value)?;
            rest = shorter;
        }
    }
    // IIII and VX are read, but nobody writes them so.
    (rest.is_empty() && number > 0 && roman(number) == text).then_some(number)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Source: published tables of Roman numerals (39, 246, 789, 2421 and the years are the
    /// usual worked examples there).
    #[test]
    fn roman_numerals() {
        #[track_caller]
        fn case(number: u32, wanted: &str) {
            assert_eq!(roman(number), wanted);
        }
        for (number, wanted) in
            (1..).zip(["I", "II", "III", "IV", "V", "VI", "VII", "VIII", "IX", "X"])
        {
            case(number, wanted);
        }
        case(39, "XXXIX");
        case(246, "CCXLVI");
        case(789, "DCCLXXXIX");
        case(1990, "MCMXC");
        case(2014, "MMXIV");
        case(2421, "MMCDXXI");
        case(3999, "MMMCMXCIX");
        case(0, "0");
        case(4000, "4000");
        for number in 1..=MOST_ROMAN {
            assert_eq!(parse_roman(&roman(number)), Some(number));
        }
        for wrong in ["IIII", "VX", "IC", "", "A", "VV"] {
            assert_eq!(parse_roman(wrong), None, "{wrong}");
        }
    }

    /// Source: galleries' print guides: n/N; AP I/V in Roman, or AP 1/5.
    #[test]
    fn as_written_under_a_print() {
        #[track_caller]
        fn case(kind: Kind, number: u32, of: u32, roman: &str, fraction: &str) {
            let notation = Notation { kind, number, of };
            assert_eq!(notation.text(Numerals::Roman), roman);
            assert_eq!(notation.text(Numerals::Fraction), fraction);
            assert_eq!(Notation::read(roman).map(|read| read.0), Some(notation));
            assert_eq!(Notation::read(fraction).map(|read| read.0), Some(notation));
        }
        case(Kind::Numbered, 3, 25, "3/25", "3/25");
        case(Kind::Artist, 1, 5, "AP I/V", "AP 1/5");
        case(Kind::Printer, 2, 2, "PP II/II", "PP 2/2");
        case(Kind::HorsCommerce, 4, 0, "HC IV", "HC 4");
        case(Kind::BonATirer, 1, 1, "BAT", "BAT");
        case(Kind::Trial, 9, 10, "TP IX/X", "TP 9/10");
    }

    #[test]
    fn what_is_no_notation() {
        for text in [
            "", "x", "III/V", "0/25", "3/25/2", "AP", "AP x/V", "BAT 2", "-1/5", "3/-5",
            "26/25",
        ] {
            assert_eq!(Notation::read(text), None, "{text}");
        }
        assert_eq!(
            Notation::read(" ap 2/5 "),
            Some((Notation { kind: Kind::Artist, number: 2, of: 5 }, Numerals::Fraction))
        );
    }
}
