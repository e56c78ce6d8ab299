//! What a plan tells of its work, and of the size it is printed in.

use std::path::Path;

use sightedge_core::spec::Document;
use sightedge_studio::{Error, Format, FormatId, NewFormat, NewWork, Work};

/// What a plan tells of its work, and of the size it is printed in.
pub fn of_plan(document: &Document, plan: Option<&Path>) -> (NewWork, NewFormat) {
    let work = document.works.first();
    let variant = document.chosen();
    let paper = variant.and_then(|variant| variant.mat.assembly.paper.as_ref());
    let picture = work.map(|work| work.picture.path.clone()).unwrap_or_default();
    let stem = || {
        let name = Path::new(&picture).file_stem().and_then(|stem| stem.to_str());
        name.unwrap_or_default().replace(['-', '_'], " ")
    };
    let title = work
        .map(|work| work.title.clone())
        .filter(|title| !title.is_empty())
        .unwrap_or_else(stem);
    let beside = plan.map(|plan| crate::files::picture_of(plan, &picture));
    let what = NewWork {
        title,
        paper: paper.map(|paper| paper.name.clone()).unwrap_or_default(),
        picture: beside.map_or(picture.clone(), |path| path.to_string_lossy().into_owned()),
        sha256: work.map(|work| work.picture.sha256.clone()).unwrap_or_default(),
        ..NewWork::default()
    };
    let format = work.map(|work| NewFormat::new("", work.image.size, work.sheet));
    (what, format.unwrap_or_default())
}

/// The plan that a print goes with.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct PlanOfPrint {
    /// Its id.
    pub id: String,
    /// Its file, from any folder.
    pub file: String,
    /// What tells the content of its picture.
    sha256: String,
    /// The size it is for.
    pub size: NewFormat,
}

impl PlanOfPrint {
    /// The plan in that file.
    pub fn of(document: &Document, file: &Path) -> Self {
        let (work, size) = of_plan(document, Some(file));
        let file = file.to_string_lossy().into_owned();
        Self { id: document.id.clone(), file, sha256: work.sha256, size }
    }

    /// Whether it can be of a print of that work: a plan of another picture cannot.
    ///
    /// # Errors
    /// Says that it cannot, and what to do.
    pub fn is_for(&self, work: &Work) -> Result<(), Error> {
        let own = work.what.sha256.as_str();
        if own.is_empty() || self.sha256.is_empty() || own == self.sha256 {
            return Ok(());
        }
        Err(Error::refused(format!(
            "this plan is of another picture than {}, {}: choose the plan of that work, or \
             correct the work's picture",
            work.catalogue, work.what.title
        )))
    }

    /// Its size among those of the work; `None` where it is none of them, or is not known.
    pub fn format(&self, formats: &[Format]) -> Option<FormatId> {
        same_size(formats, &self.size)
    }
}

/// The size of a work that has these measures, whatever it is called.
pub fn same_size(formats: &[Format], wanted: &NewFormat) -> Option<FormatId> {
    let same = |format: &&Format| format.what.measures_as(wanted);
    formats.iter().find(same).map(|format| format.id)
}
