//! Typefaces: the papers' own, and those of the system for letters it lacks.

use std::collections::{BTreeMap, BTreeSet};
use std::path::PathBuf;
use std::sync::{Arc, LazyLock, Mutex, PoisonError};

use parley::fontique::Blob;
use ttf_parser::{Face, Permissions, fonts_in_collection};

const REGULAR: &[u8] = include_bytes!("../../../assets/fonts/Inter-Regular.otf");
const SEMI_BOLD: &[u8] = include_bytes!("../../../assets/fonts/Inter-SemiBold.otf");

/// The papers' own typeface, upright and stronger: one copy for all threads.
pub(crate) fn own() -> &'static [Blob<u8>; 2] {
    static OWN: LazyLock<[Blob<u8>; 2]> =
        LazyLock::new(|| [REGULAR, SEMI_BOLD].map(|data| Blob::new(Arc::new(data))));
    &OWN
}

/// A file of typefaces from this machine.
#[derive(Clone, Debug)]
pub(crate) struct Fallback {
    /// The shaper's name for it; names of families would not do, for files share them.
    pub(crate) name: String,
    pub(crate) data: Blob<u8>,
}

/// What draws the letters of a text that the papers' own typeface lacks.
#[derive(Clone, Debug, Default)]
pub(crate) struct Foreign {
    /// The files that have them, in one order: for each letter the first one that has it. So a
    /// text is drawn alike whatever was drawn before.
    pub(crate) faces: Vec<Fallback>,
    /// Letters that no typeface on this machine has.
    pub(crate) missing: BTreeSet<char>,
}

impl Foreign {
    /// For the letters of `text`.
    pub(crate) fn of(text: &str) -> Self {
        let letters: BTreeSet<char> = text.chars().filter(|c| is_foreign(*c)).collect();
        if letters.is_empty() {
            return Self::default();
        }
        let mut found = FOUND.lock().unwrap_or_else(PoisonError::into_inner);
        found.look_for(&letters);
        let mut files = BTreeSet::new();
        let mut missing = BTreeSet::new();
        for c in letters {
            match found.letters.get(&c).copied().flatten() {
                Some(file) => drop(files.insert(file)),
                None => drop(missing.insert(c)),
            }
        }
        let face = |file: usize| {
            let data = found.data.get(&file)?.clone();
            Some(Fallback { name: format!("system {file}"), data })
        };
        Self { faces: files.into_iter().filter_map(face).collect(), missing }
    }
}

/// Letters looked for so far, each with the first file that has it, and those files' bytes.
#[derive(Debug)]
struct Found {
    letters: BTreeMap<char, Option<usize>>,
    data: BTreeMap<usize, Blob<u8>>,
}

static FOUND: Mutex<Found> =
    Mutex::new(Found { letters: BTreeMap::new(), data: BTreeMap::new() });

impl Found {
    fn look_for(&mut self, letters: &BTreeSet<char>) {
        let mut wanted: Vec<char> =
            letters.iter().copied().filter(|c| !self.letters.contains_key(c)).collect();
        for c in wanted.extract_if(.., |c| is_private(*c)) {
            self.letters.insert(c, None);
        }
        for (file, path) in system_files().iter().enumerate() {
            if wanted.is_empty() {
                return;
            }
            // Fonts are installed and removed; one that cannot be read counts as missing.
            let Ok(data) = std::fs::read(path) else { continue };
            let before = wanted.len();
            for c in wanted.extract_if(.., |c| has_letter(&data, *c)) {
                self.letters.insert(c, Some(file));
            }
            if wanted.len() < before {
                self.data.insert(file, data.into());
            }
        }
        self.letters.extend(wanted.into_iter().map(|c| (c, None)));
    }
}

/// Whether a file has a letter, in a typeface that may be embedded. Source: OpenType 1.9,
/// table OS/2, `fsType`.
fn has_letter(data: &[u8], c: char) -> bool {
    (0..fonts_in_collection(data).unwrap_or(1)).any(|index| {
        let Ok(face) = Face::parse(data, index) else { return false };
        face.permissions() != Some(Permissions::Restricted)
            && face.glyph_index(c).is_some_and(|glyph| glyph.0 != 0)
    })
}

/// Whether a letter is drawn and the papers' own typeface lacks it.
fn is_foreign(c: char) -> bool {
    static OWN: LazyLock<Option<Face<'static>>> =
        LazyLock::new(|| Face::parse(REGULAR, 0).ok());
    let own = || OWN.as_ref().is_some_and(|face| face.glyph_index(c).is_some());
    !c.is_whitespace() && !c.is_control() && !is_unseen(c) && !own()
}

/// Whether a letter is never drawn: marks of direction, joiners, selectors. Source: Unicode
/// 16.0, `Default_Ignorable_Code_Point`, those that people's texts hold.
fn is_unseen(c: char) -> bool {
    matches!(
        c,
        '\u{ad}' | '\u{34f}' | '\u{61c}' | '\u{200b}'..='\u{200f}' | '\u{202a}'..='\u{202e}'
            | '\u{2060}'..='\u{206f}' | '\u{fe00}'..='\u{fe0f}' | '\u{feff}'
            | '\u{e0100}'..='\u{e01ef}'
    )
}

/// Whether a letter is of a private use area: no two typefaces draw it alike, and an archival PDF
/// may not hold it. Source: ISO 19005-2, 6.2.11.7.3.
fn is_private(c: char) -> bool {
    matches!(c, '\u{e000}'..='\u{f8ff}' | '\u{f0000}'..='\u{10ffff}')
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
