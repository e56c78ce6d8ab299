//! Which format a file is, from its first bytes and its name.

use std::path::Path;

use serde::{Deserialize, Serialize};

/// A picture format that is opened here, or at least recognised.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
#[allow(missing_docs, reason = "each name is the format's own")]
pub enum Format {
    Jpeg,
    Tiff,
    Png,
    WebP,
    JpegXl,
    Heic,
    Avif,
    Psd,
    Raw,
    Jpeg2000,
    Gif,
    Bmp,
    OpenExr,
    Pdf,
    Svg,
}

impl Format {
    /// The format's name.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Jpeg => "JPEG",
            Self::Tiff => "TIFF",
            Self::Png => "PNG",
            Self::WebP => "WebP",
            Self::JpegXl => "JPEG XL",
            Self::Heic => "HEIC",
            Self::Avif => "AVIF",
            Self::Psd => "PSD",
            Self::Raw => "camera raw",
            Self::Jpeg2000 => "JPEG 2000",
            Self::Gif => "GIF",
            Self::Bmp => "BMP",
            Self::OpenExr => "OpenEXR",
            Self::Pdf => "PDF",
            Self::Svg => "SVG",
        }
    }

    /// The name with its article: "an AVIF picture".
    pub(crate) fn article_name(self) -> String {
        let an = matches!(self, Self::Avif | Self::OpenExr | Self::Svg);
        let thing = match self {
            Self::Raw => "file",
            Self::Pdf | Self::Psd => "document",
            _ => "picture",
        };
        format!("{} {} {thing}", if an { "an" } else { "a" }, self.name())
    }

    /// What to export instead of a format that is only recognised.
    pub(crate) fn advice(self) -> &'static str {
        match self {
            Self::Heic | Self::Avif => {
                "export it as a full-size JPEG at high quality, or as a 16-bit TIFF, with its \
                 colour profile embedded"
            }
            Self::JpegXl | Self::Jpeg2000 => {
                "export it as a 16-bit TIFF or a PNG with its colour profile embedded"
            }
            Self::Psd => {
                "save a flattened copy as a 16-bit TIFF with its colour profile embedded"
            }
            Self::Raw => {
                "develop it in your raw converter and export a 16-bit TIFF or a full-size JPEG \
                 with its colour profile embedded"
            }
            Self::OpenExr => "export it, tone-mapped for print, as a 16-bit TIFF",
            Self::Gif | Self::Bmp => "export it as a PNG",
            Self::Pdf | Self::Svg => {
                "export the page as a TIFF or PNG at the size and resolution it is printed at"
            }
            Self::Jpeg | Self::Tiff | Self::Png | Self::WebP => {
                "export it again as a baseline JPEG or a TIFF"
            }
        }
    }

    /// Recognises a file by its first bytes (64 are enough), then by its name for raw files,
    /// which pass for TIFF.
    #[must_use]
    pub fn recognise(head: &[u8], path: &Path) -> Option<Self> {
        let extension = path.extension().and_then(|e| e.to_str()).map(str::to_ascii_lowercase);
        let raw_name = extension.as_deref().is_some_and(|e| RAW_EXTENSIONS.contains(&e));
        let at = |offset: usize, bytes: &[u8]| {
            head.get(offset..).is_some_and(|rest| rest.starts_with(bytes))
        };
        if at(0, b"\xff\xd8\xff") {
            return Some(Self::Jpeg);
        }
        if at(0, b"\x89PNG\r\n\x1a\n") {
            return Some(Self::Png);
        }
        if at(0, b"RIFF") && at(8, b"WEBP") {
            return Some(Self::WebP);
        }
        if [&b"II*\0"[..], b"MM\0*", b"II+\0", b"MM\0+"].iter().any(|m| at(0, m)) {
            // Canon's CR2 marks itself after the header; the rest only by name.
            return Some(if raw_name || at(8, b"CR\x02") { Self::Raw } else { Self::Tiff });
        }
        if at(0, b"\xff\x0a") || at(0, b"\0\0\0\x0cJXL \r\n\x87\n") {
            return Some(Self::JpegXl);
        }
        if at(0, b"\0\0\0\x0cjP  \r\n\x87\n") || at(0, b"\xff\x4f\xff\x51") {
            return Some(Self::Jpeg2000);
        }
        if at(4, b"ftyp") {
            return match head.get(8..12) {
                Some(b"avif" | b"avis") => Some(Self::Avif),
                Some(b"crx ") => Some(Self::Raw),
                Some(
                    b"heic" | b"heix" | b"hevc" | b"hevx" | b"heim" | b"heis" | b"mif1"
                    | b"msf1",
                ) => Some(Self::Heic),
                _ => None,
            };
        }
        let others: [(&[u8], Self); 13] = [
            (b"8BPS", Self::Psd),
            (b"FUJIFILMCCD-RAW", Self::Raw),
            (b"IIRO", Self::Raw),
            (b"IIRS", Self::Raw),
            (b"IIU\0", Self::Raw),
            (b"\0MRM", Self::Raw),
            (b"FOVb", Self::Raw),
            (b"GIF8", Self::Gif),
            (b"BM", Self::Bmp),
            (b"\x76\x2f\x31\x01", Self::OpenExr),
            (b"%PDF", Self::Pdf),
            (b"<svg", Self::Svg),
            (b"IIII", Self::Raw),
        ];
        others
            .iter()
            .find(|(magic, _)| at(0, magic))
            .map(|&(_, format)| format)
            .or_else(|| raw_name.then_some(Self::Raw))
    }
}

/// Names by which cameras mark their raw files.
const RAW_EXTENSIONS: [&str; 20] = [
    "3fr", "arw", "cr2", "cr3", "crw", "dcr", "dng", "erf", "fff", "iiq", "kdc", "mef", "mos",
    "mrw", "nef", "nrw", "orf", "pef", "raf", "rw2",
];
