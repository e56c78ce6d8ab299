//! What is known of a monitor, in words.

use std::path::Path;

use super::{Colours, Monitor, Origin, Scale};

impl Monitor {
    /// What a person calls it: its model where it says one, with its pixels.
    pub fn title(&self) -> String {
        let (across, down) = self.pixels;
        let name = self.model.as_ref().unwrap_or(&self.output);
        format!("{name}, {across} × {down} pixels")
    }
}

impl Colours {
    /// How colours are made, in one sentence.
    pub fn words(&self) -> String {
        match self {
            Self::Assumed => "sRGB is assumed: this screen has no colour profile.".to_owned(),
            Self::Profile(origin, to) => {
                let name = match to.name() {
                    "" => "A colour profile".to_owned(),
                    name => format!("Colour profile “{name}”"),
                };
                match origin {
                    Origin::Desktop => format!("{name}, from the desktop’s settings."),
                    Origin::Own(path) => format!("{name}, from your file {}.", file(path)),
                }
            }
            Self::Refused(Origin::Desktop, why) => {
                format!("sRGB is assumed. From the desktop’s settings: {why}.")
            }
            Self::Refused(Origin::Own(path), why) => {
                format!("sRGB is assumed. {}: {why}.", path.display())
            }
        }
    }
}

impl Scale {
    /// How large things are shown, and how far off that may be, in one sentence.
    pub fn words(self) -> String {
        match self {
            Self::Reported(per_mm) => format!(
                "{} pixels per inch by the size it reports, which can be a few per cent off: \
                 measure it before you rely on it.",
                dpi(per_mm)
            ),
            Self::Measured(per_mm, measured) => format!(
                "{} pixels per inch, measured with a {}; true within ± {:.1} %.",
                dpi(per_mm),
                measured.thing.name(),
                // Up: what is promised holds.
                (measured.error() * 10.0).ceil() / 10.0,
            ),
        }
    }
}

/// Said where neither is known.
pub const NO_SCALE: &str =
    "Its size is not known: measure it, so that things can be shown at true size.";

/// What a measure leaves open, said beside it: see [`HAND`](super::HAND).
pub const ASSUMED: &str =
    "Allowed for: half a pixel, and 0.25 mm of the hand, at each of the two edges.";

fn dpi(per_mm: f64) -> String {
    format!("{:.1}", per_mm * 25.4)
}

fn file(path: &Path) -> String {
    path.file_name().unwrap_or_default().to_string_lossy().into_owned()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::monitors::{Measured, Thing};

    #[test]
    fn the_words() {
        assert!(ASSUMED.contains(&format!("{} mm", crate::monitors::HAND)));
        assert_eq!(
            Colours::Assumed.words(),
            "sRGB is assumed: this screen has no colour profile."
        );
        let refused = Colours::Refused(Origin::Own("/p/a.icc".into()), "it is odd".into());
        assert_eq!(refused.words(), "sRGB is assumed. /p/a.icc: it is odd.");
        let measured = Measured { thing: Thing::Card, wide: 342.4, across: 1920 };
        assert_eq!(
            Scale::Measured(4.0, measured).words(),
            "101.6 pixels per inch, measured with a bank card; true within ± 0.9 %."
        );
        assert!(Scale::Reported(4.0).words().starts_with("101.6 pixels per inch by the size"));
    }
}
