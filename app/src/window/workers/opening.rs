//! Reading plans and pictures from disk, away from the frame.

use std::path::{Path, PathBuf};

use sightedge_core::geometry::Rect;
use sightedge_core::length::Unit;
use sightedge_core::material::Tables;
use sightedge_core::spec::{Document, Entry, EntryKind, Start};
use sightedge_pictures::CancelToken;

use super::picture::Decoder;
use sightedge_service::files::{self, Stamp};
use sightedge_service::picture_facts;

/// A plan as it comes from disk or from a new picture.
#[derive(Clone, Debug)]
pub struct Opened {
    /// The plan.
    pub document: Document,
    /// Where it lies, or will.
    pub plan: PathBuf,
    /// Of the saved plan; `None` for a new one.
    pub stamp: Option<Stamp>,
    /// What is worth saying.
    pub said: Option<String>,
}

/// More files than this are not looked through for a lost picture.
const MOST_LOOKED_AT: usize = 400;

/// The file whose bytes have that hash, in the plan's folder, below it or one above.
pub(super) fn find(plan: &Path, sha256: &str) -> Option<PathBuf> {
    let home = plan.parent()?;
    let mut folders = vec![home.to_owned()];
    let below = |folder: &Path| -> Vec<PathBuf> {
        let entries = std::fs::read_dir(folder).into_iter().flatten().filter_map(Result::ok);
        entries.map(|entry| entry.path()).collect()
    };
    folders.extend(below(home).into_iter().filter(|path| path.is_dir()));
    folders.extend(home.parent().map(Path::to_owned));
    folders
        .iter()
        .flat_map(|folder| below(folder))
        .filter(|path| path.is_file() && !files::is_plan(path))
        .take(MOST_LOOKED_AT)
        .find(|path| {
            let hash = sightedge_pictures::content_hash(path, &CancelToken::default());
            hash.is_ok_and(|hash| hash.to_string() == sha256)
        })
}

/// Opens a plan, or makes one for a picture that has none.
pub(super) fn open(
    path: &Path,
    unit: Unit,
    tables: &Tables,
    decoder: &Decoder,
) -> Result<Opened, String> {
    // Absolute, so that the plan still finds its picture when the program moves on.
    let path = &std::path::absolute(path).map_err(|error| {
        format!("{} is no place that can be opened: {error}", path.display())
    })?;
    let beside = files::plan_of(path);
    let plan = if files::is_plan(path) { path.clone() } else { beside };
    if plan.exists() {
        let opened = files::open(&plan).map_err(|error| error.to_string())?;
        let (document, stamp) = (opened.document, Some(opened.stamp));
        return Ok(Opened { document, plan, stamp, said: None });
    }
    if files::is_plan(path) {
        return Err(format!(
            "{} is not there: check the name, or open the picture instead",
            path.display()
        ));
    }
    let facts = picture_facts::facts_by(path, |path| decoder.probe(path))?;
    let stated = facts.print_size();
    let sheet = stated.unwrap_or_else(|| facts.size_at(300.0, 300.0));
    let mut said = stated.is_none().then(|| {
        "The picture states no resolution: its sheet is taken at 300 ppi. Set the sheet to the \
         paper it is printed on."
            .to_owned()
    });
    let start = Start {
        id: picture_facts::plan_id(&facts.sha256, &plan),
        unit,
        picture: facts.picture(path, &plan)?,
        sheet,
        image: Rect::at_origin(sheet),
    };
    let (mut document, usual) = start.plan_and_size(tables);
    // A standard size is what one expects.
    if let Some(usual) = usual.filter(|usual| !usual.standard) {
        let words = sightedge_service::wording::whole(&usual.words(unit));
        said = Some(said.map_or(words.clone(), |said| format!("{said} {words}")));
    }
    if let Some(said) = &said {
        document.log.push(Entry {
            when: String::new(),
            kind: EntryKind::Choice,
            text: said.clone(),
            ticked: None,
        });
    }
    Ok(Opened { document, plan, stamp: None, said })
}
