//! Setting pages: the typesetter with our templates and typefaces, and nothing from outside.

use std::collections::{BTreeMap, HashMap};
use std::path::Path;
use std::sync::LazyLock;
use std::{fmt, fs, io};

use typst::diag::{FileError, FileResult, SourceDiagnostic};
use typst::foundations::{Bytes, Datetime, Duration, Smart};
use typst::syntax::{FileId, RootedPath, Source, VirtualPath, VirtualRoot};
use typst::text::{Font, FontBook};
use typst::utils::LazyHash;
use typst::{Library, LibraryExt, World};
use typst_layout::PagedDocument;
use typst_pdf::{PdfOptions, PdfStandard, PdfStandards};

use crate::{PapersError, fonts};

/// Which rules a PDF keeps.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub enum Archive {
    /// PDF/A-2a and PDF/UA-1: to be kept, and read aloud.
    #[default]
    A2aUa1,
    /// PDF/A-1b, for readers and validators of that age; without light and shade in the
    /// picture of the mat.
    A1b,
}

/// The typography of each paper, by the template's name.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Templates(BTreeMap<String, String>);

impl Default for Templates {
    /// Those that come with the program.
    fn default() -> Self {
        let shipped = [
            ("base.typ", include_str!("../../../assets/papers/base.typ")),
            ("sheet.typ", include_str!("../../../assets/papers/sheet.typ")),
            ("cutter.typ", include_str!("../../../assets/papers/cutter.typ")),
            ("template.typ", include_str!("../../../assets/papers/template.typ")),
            ("steps.typ", include_str!("../../../assets/papers/steps.typ")),
        ];
        Self(shipped.map(|(name, text)| (name.to_owned(), text.to_owned())).into())
    }
}

impl Templates {
    /// The same with one template of the maker's own in place of that name: `base.typ`,
    /// `sheet.typ`, `cutter.typ`, `template.typ`, `steps.typ`, or a file that these import.
    #[must_use]
    pub fn with(mut self, name: &str, text: String) -> Self {
        self.0.insert(name.to_owned(), text);
        self
    }

    /// The same with the maker's own templates of that folder: every file whose name ends in
    /// `.typ`.
    ///
    /// # Errors
    /// Where the folder or one of these files cannot be read.
    pub fn with_those_in(mut self, folder: &Path) -> io::Result<Self> {
        for entry in fs::read_dir(folder)? {
            let path = entry?.path();
            let name = path.file_name().and_then(|name| name.to_str());
            let is_one = path.extension().is_some_and(|ending| ending == "typ");
            if let Some(name) = name.filter(|_| is_one) {
                self.0.insert(name.to_owned(), fs::read_to_string(&path)?);
            }
        }
        Ok(self)
    }
}

/// One paper to be set.
struct Desk<'a> {
    main: FileId,
    files: HashMap<FileId, Bytes>,
    sources: HashMap<FileId, Source>,
    fonts: &'a fonts::Fonts,
}

impl fmt::Debug for Desk<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.debug_struct("Desk").field("main", &self.main).finish_non_exhaustive()
    }
}

fn id(name: &str) -> Result<FileId, PapersError> {
    let path = VirtualPath::new(name)
        .map_err(|_| PapersError::Template(format!("\"{name}\" is no name of a template")))?;
    Ok(RootedPath::new(VirtualRoot::Project, path).intern())
}

impl World for Desk<'_> {
    fn library(&self) -> &LazyHash<Library> {
        static LIBRARY: LazyLock<LazyHash<Library>> =
            LazyLock::new(|| LazyHash::new(Library::default()));
        &LIBRARY
    }

    fn book(&self) -> &LazyHash<FontBook> {
        &self.fonts.book
    }

    fn main(&self) -> FileId {
        self.main
    }

    fn source(&self, id: FileId) -> FileResult<Source> {
        self.sources.get(&id).cloned().ok_or_else(|| missing(id))
    }

    fn file(&self, id: FileId) -> FileResult<Bytes> {
        self.files.get(&id).cloned().ok_or_else(|| missing(id))
    }

    fn font(&self, index: usize) -> Option<Font> {
        self.fonts.list.get(index).cloned()
    }

    fn today(&self, _: Option<Duration>) -> Option<Datetime> {
        // Dates are arguments.
        None
    }
}

fn missing(id: FileId) -> FileError {
    FileError::NotFound(id.vpath().get_without_slash().into())
}

/// Lays out what `pages` holds as JSON, with the template of that name.
pub(crate) fn set(
    pages: Vec<u8>,
    template: &str,
    templates: &Templates,
    pictures: &BTreeMap<String, Bytes>,
    fonts: &fonts::Fonts,
) -> Result<PagedDocument, PapersError> {
    let mut desk =
        Desk { main: id(template)?, files: HashMap::new(), sources: HashMap::new(), fonts };
    for (name, text) in &templates.0 {
        let id = id(name)?;
        desk.sources.insert(id, Source::new(id, text.clone()));
    }
    desk.files.insert(id("pages.json")?, Bytes::new(pages));
    for (name, bytes) in pictures {
        desk.files.insert(id(name)?, bytes.clone());
    }
    typst::compile::<PagedDocument>(&desk).output.map_err(|errors| failed(&errors))
}

/// Writes set pages as a PDF. `ident` stays the same for the same paper of the same plan.
pub(crate) fn pdf(
    document: &PagedDocument,
    archive: Archive,
    ident: String,
) -> Result<Vec<u8>, PapersError> {
    let list: &[PdfStandard] = match archive {
        Archive::A2aUa1 => &[PdfStandard::A_2a, PdfStandard::Ua_1],
        Archive::A1b => &[PdfStandard::A_1b],
    };
    let standards = PdfStandards::new(list)
        .map_err(|error| PapersError::Template(error.message().to_string()))?;
    let creator = Smart::Custom(Some("Sightedge".to_owned()));
    let ident = Smart::Custom(ident);
    let options = PdfOptions { ident, creator, standards, ..PdfOptions::default() };
    typst_pdf::pdf(document, &options).map_err(|errors| failed(&errors))
}

fn failed(errors: &[SourceDiagnostic]) -> PapersError {
    let words: Vec<_> = errors
        .iter()
        .take(3)
        .map(|error| {
            let hints = error.hints.iter().map(|hint| hint.v.as_str());
            std::iter::once(error.message.as_str()).chain(hints).collect::<Vec<_>>().join(", ")
        })
        .collect();
    PapersError::Template(words.join("; "))
}

/// Forgets what earlier papers left behind, so that thousands take no more room than a few.
pub fn forget() {
    typst::comemo::evict(3);
}
