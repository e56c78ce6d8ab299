//! Unsaved work, kept safe until it is saved or given up.

use std::hash::{DefaultHasher, Hash as _, Hasher as _};
use std::path::{Path, PathBuf};

use sightedge_core::file;
use sightedge_core::spec::Document;

use crate::session::{self, Session};
use crate::storage::{Storage, write_whole};

/// Work of an earlier session that was not saved.
#[derive(Clone, Debug)]
pub struct Unsaved {
    /// The plan as it was last seen.
    pub document: Document,
    /// Where it would have been saved.
    pub plan: PathBuf,
    file: PathBuf,
}

impl Storage {
    /// By the plan's place, too: one that was saved under another name is another plan.
    fn unsaved_name(&self, session: &Session, id: &str, plan: &Path) -> Option<PathBuf> {
        let safe: String = id.chars().filter(char::is_ascii_alphanumeric).take(64).collect();
        let mut place = DefaultHasher::new();
        plan.hash(&mut place);
        let place = place.finish();
        self.file(&format!("unsaved/{}-{safe}-{place:016x}.ron", session.name()))
    }

    /// Where the windows that run hold their locks.
    fn running(&self) -> Option<PathBuf> {
        self.file("running")
    }

    /// This window's session, begun where it has none yet.
    fn session(&self) -> std::io::Result<Option<&Session>> {
        let (Some(session), Some(running)) = (&self.session, self.running()) else {
            return Ok(None);
        };
        if session.get().is_none() {
            let begun = Session::begin(&running)?;
            // Where another thread began one meanwhile, this one ends.
            drop(session.set(begun));
        }
        Ok(session.get())
    }

    /// Keeps a plan that is not saved yet.
    ///
    /// # Errors
    /// What the system says.
    pub fn keep_unsaved(&self, document: &Document, plan: &Path) -> std::io::Result<()> {
        let Some(session) = self.session()? else { return Ok(()) };
        session.touch();
        let Some(path) = self.unsaved_name(session, &document.id, plan) else { return Ok(()) };
        let whole = format!("// {}\n{}", plan.display(), file::write(document));
        write_whole(&path, whole.as_bytes())
    }

    /// Lets go of what was kept of a plan: it is saved, or given up.
    pub fn let_go(&self, id: &str, plan: &Path) {
        let session = self.session.as_ref().and_then(|session| session.get());
        if let Some(path) = session.and_then(|session| self.unsaved_name(session, id, plan)) {
            // There may have been nothing to let go of.
            drop(std::fs::remove_file(path));
        }
    }

    /// What earlier windows left unsaved; what those that still run keep is theirs.
    pub fn left_unsaved(&self) -> Vec<Unsaved> {
        let (Some(folder), Some(running)) = (self.file("unsaved"), self.running()) else {
            return Vec::new();
        };
        session::clear_ended(&running);
        let Ok(entries) = std::fs::read_dir(folder) else { return Vec::new() };
        let mut found: Vec<Unsaved> = entries
            .filter_map(Result::ok)
            .filter(|entry| {
                let name = entry.file_name();
                let name = name.to_string_lossy();
                !session::is_running(&running, name.split('-').next().unwrap_or_default())
            })
            .filter_map(|entry| {
                let file = entry.path();
                let text = std::fs::read_to_string(&file).ok()?;
                let (first, rest) = text.split_once('\n')?;
                let plan = PathBuf::from(first.strip_prefix("// ")?);
                let document = file::read(rest, &file.display().to_string()).ok()?;
                Some(Unsaved { document, plan, file })
            })
            .collect();
        found.sort_by(|a, b| a.file.cmp(&b.file));
        found
    }
}

impl Unsaved {
    /// How long ago it was kept safe; `None` where the system does not tell.
    pub fn age(&self) -> Option<std::time::Duration> {
        std::fs::metadata(&self.file).ok()?.modified().ok()?.elapsed().ok()
    }

    /// Forgets it.
    pub fn forget(&self) {
        // Already gone is as good.
        drop(std::fs::remove_file(&self.file));
    }
}

#[cfg(test)]
mod tests {
    use sightedge_core::geometry::{Rect, Size};
    use sightedge_core::length::{Length, Unit};
    use sightedge_core::material::Tables;
    use sightedge_core::spec::{Picture, Start};

    use super::*;

    /// A second window, on whatever system, leaves alone what the first one keeps; once the
    /// first has ended it is offered, and forgotten when the person says so.
    #[test]
    fn what_a_running_window_keeps_is_its_own() {
        let state = tempfile::tempdir().unwrap();
        let window = || Storage::at(state.path());
        let sheet = Size::new(Length::inches(8, 0, 1), Length::inches(10, 0, 1));
        let picture = Picture {
            path: "weir.jpg".to_owned(),
            sha256: "0".repeat(64),
            width_px: 800,
            height_px: 1000,
        };
        let image = Rect::at_origin(sheet);
        let start = Start { id: "one".to_owned(), unit: Unit::Inch, picture, sheet, image };
        let document = start.plan(Tables::shipped());
        let (first, second) = (window(), window());
        first.keep_unsaved(&document, Path::new("/a/weir.mat.ron")).unwrap();
        assert!(second.left_unsaved().is_empty(), "the first one runs");
        // The second one keeps its own of the same plan, and lets go of that alone.
        second.keep_unsaved(&document, Path::new("/a/weir.mat.ron")).unwrap();
        second.let_go(&document.id, Path::new("/a/weir.mat.ron"));
        assert_eq!(std::fs::read_dir(state.path().join("unsaved")).unwrap().count(), 1);
        let copy = first.clone();
        drop(first);
        assert!(second.left_unsaved().is_empty(), "a copy is of the same window");
        drop(copy);
        let left = second.left_unsaved();
        assert_eq!(left.len(), 1);
        assert_eq!(left[0].document, document);
        left[0].forget();
        assert!(window().left_unsaved().is_empty());
    }
}
