//! Typefaces: our own, and those of the system for letters it lacks.

use std::path::PathBuf;
use std::sync::LazyLock;

use typst::foundations::Bytes;
use typst::text::{Font, FontBook};
use typst::utils::LazyHash;

use crate::words::{REGULAR, SEMI_BOLD, has};

/// Typefaces to set with, the papers' own first.
#[derive(Debug)]
pub(crate) struct Fonts {
    pub(crate) book: LazyHash<FontBook>,
    pub(crate) list: Vec<Font>,
}

impl Fonts {
    fn of(list: Vec<Font>) -> Self {
        Self { book: LazyHash::new(FontBook::from_fonts(&list)), list }
    }

    /// The papers' own alone: equal on every machine.
    pub(crate) fn own() -> &'static Self {
        static OWN: LazyLock<Fonts> = LazyLock::new(|| Fonts::of(own()));
        &OWN
    }

    /// The papers' own, and those of the system that have letters of `foreign`.
    pub(crate) fn with_the_systems(foreign: &[char]) -> Self {
        let mut list = own();
        let mut wanted: Vec<char> = foreign.to_vec();
        for path in system_files() {
            if wanted.is_empty() {
                break;
            }
            // Fonts come and go; one that cannot be read is one that is not there.
            let Ok(data) = std::fs::read(path) else { continue };
            for font in Font::iter(Bytes::new(data)) {
                let before = wanted.len();
                wanted.retain(|c| !font.info().coverage.contains(u32::from(*c)));
                if wanted.len() < before {
                    list.push(font);
                }
            }
        }
        Self::of(list)
    }

    /// Whether any of these has the letter.
    pub(crate) fn have(&self, c: char) -> bool {
        self.list.iter().any(|font| font.info().coverage.contains(u32::from(c)))
    }
}

fn own() -> Vec<Font> {
    [REGULAR, SEMI_BOLD].into_iter().flat_map(|data| Font::iter(Bytes::new(data))).collect()
}

/// The letters of `text` that the papers' own typeface lacks, each once.
pub(crate) fn foreign(text: &str) -> Vec<char> {
    // Marks of direction are never drawn.
    let drawn = |c: char| !c.is_control() && !matches!(c, '\u{2066}'..='\u{2069}');
    let mut letters: Vec<char> =
        text.chars().filter(|c| drawn(*c) && !c.is_whitespace() && !has(*c)).collect();
    letters.sort_unstable();
    letters.dedup();
    letters
}

/// Files of typefaces where systems keep them, in one order.
fn system_files() -> &'static [PathBuf] {
    static FILES: LazyLock<Vec<PathBuf>> = LazyLock::new(|| {
        let mut database = fontdb::Database::new();
        database.load_system_fonts();
        let mut files: Vec<PathBuf> = database
            .faces()
            // Upright and of ordinary weight: a title in a slanted face looks like a mistake.
            .filter(|face| {
                face.style == fontdb::Style::Normal && face.weight == fontdb::Weight::NORMAL
            })
            .filter_map(|face| match &face.source {
                fontdb::Source::File(path) | fontdb::Source::SharedFile(path, _) => {
                    Some(path.clone())
                }
                fontdb::Source::Binary(_) => None,
            })
            .collect();
        files.sort();
        files.dedup();
        files
    });
    &FILES
}
