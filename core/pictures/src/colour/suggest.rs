//! A main mat and an undermat for each of a few intents, with measured reasons.

use serde::{Deserialize, Serialize};

use super::{Lab, Palette, Swatch, contrast_ratio, delta_e_2000};

/// What a mat is to do for the picture.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum Intent {
    /// The picture's highlights stay the whitest thing.
    HighlightsLead,
    /// The mat is as white as the paper.
    MatchPaper,
    /// The mat takes up a quiet colour of the picture.
    QuietEcho,
    /// The mat is dark, so that the picture glows.
    DarkSurround,
}

/// Why a suggestion is what it is, measured.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub enum Reason {
    /// Contrast of the mat to the picture's border zone, 1 to 21.
    BorderContrast {
        /// The ratio.
        ratio: f64,
    },
    /// CIEDE2000 of the mat to the paper's white.
    PaperDifference {
        /// The difference.
        delta_e: f64,
    },
    /// Mat and paper are almost, not quite, the same white: it looks like a mistake.
    WhitesClash {
        /// The difference.
        delta_e: f64,
    },
    /// The mat's lightness less the picture's mean lightness.
    LighterThanMean {
        /// The difference; negative for a darker mat.
        by: f64,
    },
    /// The highlights' lightness less the mat's.
    HighlightsAbove {
        /// The difference; negative where the mat outshines them.
        by: f64,
    },
    /// The mat (or undermat) is drawn from a colour of the picture.
    Echoes {
        /// That colour.
        of: [u8; 3],
        /// Its share of the picture's area.
        share: f64,
    },
}

impl Reason {
    /// Whether it speaks against the suggestion.
    #[must_use]
    pub fn is_warning(&self) -> bool {
        match *self {
            Self::WhitesClash { .. } => true,
            Self::HighlightsAbove { by } => by < 0.0,
            Self::BorderContrast { ratio } => ratio < LEAST_CONTRAST,
            Self::PaperDifference { .. }
            | Self::LighterThanMean { .. }
            | Self::Echoes { .. } => false,
        }
    }

    /// In plain words, without the figure.
    #[must_use]
    pub fn words(&self) -> &'static str {
        match *self {
            Self::BorderContrast { ratio } if ratio < LEAST_CONTRAST => {
                "The picture's edges run into the mat."
            }
            Self::BorderContrast { .. } => "Stands out from the picture's edges.",
            Self::PaperDifference { delta_e } if delta_e < *CLASH.start() => {
                "Matches the paper's white."
            }
            Self::PaperDifference { .. } => "Clearly different from the paper's white.",
            Self::WhitesClash { .. } => {
                "Almost the paper's white: one of the two will look dirty. Match it, or stay well \
                 away from it."
            }
            Self::LighterThanMean { by } if by < 0.0 => "Darker than most of the picture.",
            Self::LighterThanMean { .. } => "Lighter than most of the picture.",
            Self::HighlightsAbove { by } if by < 0.0 => {
                "Lighter than the picture's highlights, which will look grey."
            }
            Self::HighlightsAbove { .. } => "Darker than the picture's highlights.",
            Self::Echoes { .. } => "Takes up a colour of the picture.",
        }
    }

    /// One plain sentence, with the figure.
    #[must_use]
    pub fn message(&self) -> String {
        let words = match *self {
            Self::BorderContrast { ratio } if ratio < LEAST_CONTRAST => {
                "Close to the picture's edges: the picture will run into the mat."
            }
            Self::BorderContrast { .. } => "Stands out clearly from the picture's edges.",
            Self::PaperDifference { .. } => "Clearly different from the paper's white.",
            Self::WhitesClash { .. } => {
                "Almost the paper's white: one of the two will look dirty. Match it, or choose a \
                 clearly different white."
            }
            Self::LighterThanMean { by } if by < 0.0 => "Darker than most of the picture.",
            Self::LighterThanMean { .. } => "Lighter than most of the picture.",
            Self::HighlightsAbove { by } if by < 0.0 => {
                "Lighter than the picture's highlights: they will look grey beside it."
            }
            Self::HighlightsAbove { .. } => "The picture's highlights stay lighter.",
            Self::Echoes { .. } => "Picks up a colour of the picture.",
        };
        words.to_owned()
    }

    /// The number behind it, for whoever asks.
    #[must_use]
    pub fn figure(&self) -> String {
        match *self {
            Self::BorderContrast { ratio } => {
                format!("Contrast with the picture's edges {ratio:.1} : 1.")
            }
            Self::PaperDifference { delta_e } | Self::WhitesClash { delta_e } => {
                format!("Difference from the paper's white {delta_e:.1}, where 1 is just seen.")
            }
            Self::LighterThanMean { by } if by < 0.0 => {
                format!(
                    "Darker than the picture's mean by {:.0} of 100 steps of lightness.",
                    -by
                )
            }
            Self::LighterThanMean { by } => {
                format!("Lighter than the picture's mean by {by:.0} of 100 steps of lightness.")
            }
            Self::HighlightsAbove { by } if by < 0.0 => format!(
                "Lighter than the picture's highlights by {:.0} of 100 steps of lightness.",
                -by
            ),
            Self::HighlightsAbove { by } => {
                format!("Highlights above the mat by {by:.0} of 100 steps of lightness.")
            }
            Self::Echoes { of: [r, g, b], share } => {
                format!("#{r:02x}{g:02x}{b:02x}, {:.0} % of the picture.", share * 100.0)
            }
        }
    }
}

/// Below this contrast an edge is hard to see at a distance. Source: common practice.
const LEAST_CONTRAST: f64 = 1.2;
/// Whites this far apart clash; nearer they are one, farther they are two (CIEDE2000).
const CLASH: std::ops::RangeInclusive<f64> = 1.0..=6.0;

/// A mat and an undermat for one intent.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Suggestion {
    /// What it is for.
    pub intent: Intent,
    /// The main mat.
    pub mat: Lab,
    /// The same as sRGB.
    pub mat_rgb: [u8; 3],
    /// The undermat.
    pub undermat: Lab,
    /// The same as sRGB.
    pub undermat_rgb: [u8; 3],
    /// Why, with measured figures; of the mat unless it names another part.
    pub reasons: Vec<Reason>,
}

impl Palette {
    /// What is measured of any mat against this picture on this paper.
    #[must_use]
    pub fn measure(&self, mat: Lab, paper: Lab) -> Vec<Reason> {
        let delta_e = delta_e_2000(mat, paper);
        let mut reasons = vec![
            Reason::BorderContrast { ratio: contrast_ratio(mat.to_srgb(), self.border.rgb) },
            Reason::PaperDifference { delta_e },
            Reason::LighterThanMean { by: mat.l - self.mean.lab.l },
            Reason::HighlightsAbove { by: self.highlights - mat.l },
        ];
        // Only whites can clash as whites.
        if CLASH.contains(&delta_e) && mat.l > 80.0 && paper.l > 80.0 {
            reasons.push(Reason::WhitesClash { delta_e });
        }
        reasons
    }
}

/// A colour of this lightness, hue as `of`, its chroma taken down and held to `most`.
fn toned(of: Lab, l: f64, keep: f64, most: f64) -> Lab {
    let chroma = of.chroma();
    let scale = if chroma > 1e-9 { (chroma * keep).min(most) / chroma } else { 0.0 };
    Lab::new(l, of.a * scale, of.b * scale)
}

/// A suggestion for each intent, in a fixed order. `paper` is the paper's white.
#[must_use]
pub fn suggestions(palette: &Palette, paper: Lab) -> Vec<Suggestion> {
    let quiet = palette.quiet.first().copied().unwrap_or(palette.mean);
    let accent = palette.accents.first().copied().unwrap_or(quiet);
    let make = |intent, mat: Lab, undermat: Lab, echoed: Option<Swatch>| {
        let (mat_rgb, undermat_rgb) = (mat.to_srgb(), undermat.to_srgb());
        let mut reasons = palette.measure(mat, paper);
        reasons.extend(echoed.map(|s| Reason::Echoes { of: s.rgb, share: s.share }));
        Suggestion { intent, mat, mat_rgb, undermat, undermat_rgb, reasons }
    };
    // A step of three L* below the highlights is seen, and is still a white for most pictures.
    let off_white = (palette.highlights - 3.0).clamp(72.0, 94.0);
    let white = toned(palette.light.lab, off_white, 0.3, 4.0);
    let echo_l = quiet.lab.l.clamp(58.0, 80.0);
    let dark_l = (palette.dark.lab.l + 6.0).clamp(16.0, 30.0);
    vec![
        make(
            Intent::HighlightsLead,
            white,
            toned(palette.light.lab, off_white - 7.0, 0.4, 5.0),
            None,
        ),
        make(Intent::MatchPaper, paper, toned(quiet.lab, 70.0, 0.5, 8.0), None),
        make(
            Intent::QuietEcho,
            toned(quiet.lab, echo_l, 0.6, 12.0),
            toned(accent.lab, accent.lab.l.clamp(30.0, 60.0), 0.8, 30.0),
            Some(quiet),
        ),
        make(
            Intent::DarkSurround,
            toned(palette.dark.lab, dark_l, 0.5, 5.0),
            toned(palette.light.lab, 78.0, 0.4, 5.0),
            Some(palette.dark),
        ),
    ]
}

#[cfg(test)]
#[allow(clippy::unwrap_used, reason = "a failing test says where")]
mod tests {
    use super::super::palette_of;
    use super::*;
    use crate::Size;

    fn palette(highlight: u8) -> Palette {
        let mut rgba = Vec::new();
        for (rgb, rows) in [
            ([highlight; 3], 20),
            ([120, 130, 110], 40),
            ([180, 60, 40], 10),
            ([25, 24, 30], 30),
        ] {
            rgba.extend([rgb[0], rgb[1], rgb[2], 255].repeat(rows * 100));
        }
        palette_of(&rgba, Size::new(100, 100)).unwrap()
    }

    const PAPER: Lab = Lab::new(96.0, 0.0, -1.5);

    #[test]
    fn highlights_stay_above_the_mat_meant_for_them() {
        for highlight in [200, 230, 255] {
            let palette = palette(highlight);
            let all = suggestions(&palette, PAPER);
            assert_eq!(all[0].intent, Intent::HighlightsLead, "the order is fixed");
            let above = all[0].reasons.iter().find_map(|r| match r {
                Reason::HighlightsAbove { by } => Some(*by),
                _ => None,
            });
            assert!(above > Some(2.0), "highlights of {highlight}: {above:?}");
        }
    }

    #[test]
    fn near_whites_clash_equal_and_distant_ones_do_not() {
        let palette = palette(250);
        let clashes = |mat| {
            let reasons = palette.measure(mat, PAPER);
            reasons.iter().any(|r| matches!(r, Reason::WhitesClash { .. }))
        };
        assert!(!clashes(PAPER), "the same white");
        assert!(clashes(Lab::new(94.0, 0.5, 3.0)), "a cream on a cold white");
        assert!(!clashes(Lab::new(60.0, 0.0, 0.0)), "a grey");
    }

    #[test]
    fn every_reason_has_its_words_and_numbers() {
        let suggestion = &suggestions(&palette(255), PAPER)[2];
        let words: Vec<String> = suggestion.reasons.iter().map(Reason::message).collect();
        let figures: Vec<String> = suggestion.reasons.iter().map(Reason::figure).collect();
        let all = |told: &[String], wanted: &str| {
            assert!(told.iter().any(|one| one.starts_with(wanted)), "{wanted}: {told:?}");
        };
        all(&words, "Stands out clearly from the picture's edges.");
        all(&words, "Clearly different from the paper's white.");
        all(&words, "Picks up a colour of the picture.");
        all(&figures, "Contrast with the picture's edges ");
        all(&figures, "Difference from the paper's white ");
        assert!(suggestion.mat.chroma() <= 12.1, "quiet: {:?}", suggestion.mat);
    }

    #[test]
    fn a_dark_surround_is_darker_than_the_picture() {
        let palette = palette(255);
        let dark = &suggestions(&palette, PAPER)[3];
        assert!(dark.mat.l < palette.mean.lab.l, "{:?}", dark.mat);
    }
}
