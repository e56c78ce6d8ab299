//! Findings about a picture that does open.

use serde::{Deserialize, Serialize};

use crate::Size;

/// How serious a finding is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub enum Severity {
    /// Good to know.
    Note,
    /// Look before printing.
    Warning,
}

/// Something about the file that decides how far its pixels can be trusted.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub enum Finding {
    /// No colour profile: taken as sRGB (or grey with sRGB's curve).
    Untagged,
    /// No colour profile in a CMYK file: shown through a plain ink model.
    UntaggedCmyk,
    /// A profile is there but cannot be read: taken as sRGB.
    ProfileDamaged {
        /// What was wrong with it.
        detail: String,
    },
    /// The profile is for another kind of colour than the pixels: not used.
    ProfileUnsuitable {
        /// The pixels' kind.
        pixels: String,
        /// The profile's kind.
        profile: String,
    },
    /// The file ends, or breaks, before the last row.
    Incomplete {
        /// Full-size rows that could be read; all of them where only detail is missing.
        rows: u32,
        /// Rows there should be.
        of: u32,
        /// What the decoder found.
        detail: String,
    },
    /// The size asked for is larger than the picture: given at its own size.
    NotEnlarged {
        /// Size asked for.
        asked: Size,
        /// Size given.
        given: Size,
    },
    /// The picture has see-through parts.
    Transparency,
    /// The file holds several pictures; the first is shown.
    SeveralPictures,
    /// The orientation tag holds a value outside 1 to 8: ignored.
    OrientationUnknown {
        /// The value found.
        value: u32,
    },
    /// EXIF data that cannot be read: ignored.
    MetadataDamaged {
        /// What was wrong with it.
        detail: String,
    },
    /// Two places in the file state different resolutions; the first is used.
    ResolutionsDisagree {
        /// Pixels per inch used, rounded.
        used: u32,
        /// Pixels per inch stated elsewhere, rounded.
        other: u32,
    },
}

impl Finding {
    /// How serious it is.
    #[must_use]
    pub fn severity(&self) -> Severity {
        match self {
            Self::Untagged
            | Self::NotEnlarged { .. }
            | Self::Transparency
            | Self::SeveralPictures
            | Self::OrientationUnknown { .. }
            | Self::MetadataDamaged { .. } => Severity::Note,
            Self::UntaggedCmyk
            | Self::ProfileDamaged { .. }
            | Self::ProfileUnsuitable { .. }
            | Self::Incomplete { .. }
            | Self::ResolutionsDisagree { .. } => Severity::Warning,
        }
    }

    /// One plain sentence or two: what was found, what was done, what to do.
    #[must_use]
    pub fn message(&self) -> String {
        match self {
            Self::Untagged => {
                "The picture has no colour profile, so it is shown as sRGB.".into()
            }
            Self::UntaggedCmyk => "The picture is CMYK without a colour profile, so its \
                                   colours are a guess. Export it again with its profile \
                                   embedded."
                .into(),
            Self::ProfileDamaged { detail } => format!(
                "The picture's colour profile cannot be read ({detail}), so it is shown as \
                 sRGB. Export the picture again with its profile embedded."
            ),
            Self::ProfileUnsuitable { pixels, profile } => format!(
                "The colour profile is for {profile} but the pixels are {pixels}, so the \
                 profile is not used. Export the picture again with its profile embedded."
            ),
            // A coarser picture, of the scans that could be read.
            Self::Incomplete { rows, of, detail } if rows == of => format!(
                "The file is incomplete ({detail}): the whole picture shows, but its fine detail \
                 may be missing. Copy it again from where it came."
            ),
            Self::Incomplete { rows, of, detail } => format!(
                "The file is incomplete: {rows} of {of} rows could be read ({detail}). Copy it \
                 again from where it came."
            ),
            Self::NotEnlarged { asked, given } => format!(
                "You asked for {asked} pixels. The picture has only {given} and was not \
                 enlarged."
            ),
            Self::Transparency => {
                "The picture has transparent parts, which are shown as bare paper.".into()
            }
            Self::SeveralPictures => {
                "The file holds several pictures. The first one is shown.".into()
            }
            Self::OrientationUnknown { value } => format!(
                "The picture's orientation tag is {value}, which has no meaning (1 to 8 do), \
                 so it is ignored."
            ),
            Self::MetadataDamaged { detail } => {
                format!("The camera data cannot be read ({detail}) and is ignored.")
            }
            Self::ResolutionsDisagree { used, other } => format!(
                "The file gives both {used} and {other} pixels per inch. {used} is used."
            ),
        }
    }
}
