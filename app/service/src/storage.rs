//! Where settings, materials and unsaved work lie, and how they are read and written.

use std::path::{Path, PathBuf};
use std::sync::{Arc, OnceLock};

use crate::settings::Settings;
use serde::Serialize;
use sightedge_core::material::{OwnTables, Tables};

use crate::session::Session;

/// The folder where settings and unsaved work lie.
#[derive(Clone, Debug)]
pub struct Storage {
    folder: Option<PathBuf>,
    config: Option<PathBuf>,
    /// This window, as others see it, from its first unsaved work on.
    pub(crate) session: Option<Arc<OnceLock<Session>>>,
}

impl Storage {
    /// The system's folder for such things, or `$SIGHTEDGE_STATE`.
    pub fn usual() -> Self {
        let own = std::env::var_os("SIGHTEDGE_STATE").filter(|value| !value.is_empty());
        let own = own.map(PathBuf::from);
        let dirs = directories::ProjectDirs::from("", "", "sightedge");
        let system = || {
            let dirs = dirs.as_ref()?;
            Some(dirs.state_dir().unwrap_or_else(|| dirs.data_local_dir()).to_owned())
        };
        let config = || Some(dirs.as_ref()?.config_dir().to_owned());
        Self {
            config: own.clone().or_else(config),
            folder: own.or_else(system),
            session: Some(Arc::default()),
        }
    }

    /// A folder of the caller's.
    pub fn at(folder: &Path) -> Self {
        let folder = Some(folder.to_owned());
        Self { config: folder.clone(), folder, session: Some(Arc::default()) }
    }

    /// Keeps nothing: for tests.
    pub const fn nothing() -> Self {
        Self { folder: None, config: None, session: None }
    }

    /// A file in the folder; `None` where there is no folder.
    pub fn file(&self, name: &str) -> Option<PathBuf> {
        Some(self.folder.as_ref()?.join(name))
    }

    /// The settings as they were left.
    pub fn settings(&self) -> Settings {
        let text =
            self.file("settings.ron").and_then(|path| std::fs::read_to_string(path).ok());
        text.and_then(|text| ron::from_str(&text).ok()).unwrap_or_default()
    }

    /// Keeps the settings.
    ///
    /// # Errors
    /// What the system says.
    pub fn keep_settings(&self, settings: &Settings) -> std::io::Result<()> {
        let Some(path) = self.file("settings.ron") else { return Ok(()) };
        let text = ron::ser::to_string_pretty(settings, ron::ser::PrettyConfig::default())
            .map_err(std::io::Error::other)?;
        write_whole(&path, text.as_bytes())
    }

    /// Reads what was kept under `name`; what cannot be read is put aside, not lost, and the
    /// sentence says where.
    pub fn read<T: serde::de::DeserializeOwned>(
        &self,
        name: &str,
    ) -> (Option<T>, Option<String>) {
        let Some(path) = self.file(name) else { return (None, None) };
        let Ok(text) = std::fs::read_to_string(&path) else { return (None, None) };
        match ron::from_str(&text) {
            Ok(kept) => (Some(kept), None),
            Err(error) => {
                let aside = path.with_extension("unreadable");
                let said = match std::fs::rename(&path, &aside) {
                    Ok(()) => format!("it is now {} and a new one is begun", aside.display()),
                    Err(error) => format!("it could not be put aside either ({error})"),
                };
                (None, Some(format!("{} cannot be read: {error}; {said}.", path.display())))
            }
        }
    }

    /// Reads what was kept under `name`, and leaves it as it is where it cannot be read; `None`
    /// where nothing was kept.
    ///
    /// # Errors
    /// Names the file, and what is wrong with it.
    pub fn read_as_it_is<T: serde::de::DeserializeOwned>(
        &self,
        name: &str,
    ) -> Result<Option<T>, String> {
        let Some(path) = self.file(name) else { return Ok(None) };
        let text = match std::fs::read_to_string(&path) {
            Ok(text) => text,
            Err(error) if error.kind() == std::io::ErrorKind::NotFound => return Ok(None),
            Err(error) => return Err(format!("{} cannot be read: {error}", path.display())),
        };
        // Where the reader stumbled is for programmers.
        ron::from_str(&text)
            .map(Some)
            .map_err(|_| format!("{} cannot be read: what is in it is spoilt", path.display()))
    }

    /// Puts what was kept under `name` aside, under a name that is free.
    ///
    /// # Errors
    /// What the system says.
    pub fn put_aside(&self, name: &str) -> std::io::Result<()> {
        self.file(name).map_or(Ok(()), |path| put_aside(&path))
    }

    /// Keeps something under `name`.
    ///
    /// # Errors
    /// What the system says.
    pub fn write<T: Serialize>(&self, name: &str, what: &T) -> std::io::Result<()> {
        let Some(path) = self.file(name) else { return Ok(()) };
        let text = ron::to_string(what).map_err(std::io::Error::other)?;
        write_whole(&path, text.as_bytes())
    }

    /// Where a person's own materials are kept, beside the settings a person edits.
    pub fn materials_file(&self) -> Option<PathBuf> {
        Some(self.config.as_ref()?.join("materials.ron"))
    }

    /// A person's own materials; none where there are none yet.
    ///
    /// # Errors
    /// Names the file, the row, the field and the reason.
    pub fn materials(&self) -> Result<OwnTables, String> {
        let Some(path) = self.materials_file() else { return Ok(OwnTables::default()) };
        match std::fs::read_to_string(&path) {
            Ok(text) => OwnTables::read(&text).map_err(|error| {
                format!(
                    "{}: {error}. Nothing of it is used until that is mended there, or the \
                     file moved away.",
                    path.display()
                )
            }),
            Err(error) if error.kind() == std::io::ErrorKind::NotFound => {
                Ok(OwnTables::default())
            }
            Err(error) => Err(format!(
                "{} could not be read: {error}. Nothing of it is used: see that it is yours to \
                 read, or move it away.",
                path.display()
            )),
        }
    }

    /// The program's tables with a person's own laid over them, and why these could not be
    /// used where they could not: then the program's stand alone.
    pub fn tables(&self) -> (OwnTables, Tables, Option<String>) {
        let (own, words) = match self.materials() {
            Ok(own) => (own, None),
            Err(words) => (OwnTables::default(), Some(words)),
        };
        let tables = Tables::shipped().clone().with(own.tables());
        (own, tables, words)
    }

    /// Keeps a person's own materials. A file that could not be read is put aside first: what
    /// is in it may be mended.
    ///
    /// # Errors
    /// What the system says.
    pub fn keep_materials(&self, own: &OwnTables) -> std::io::Result<()> {
        let Some(path) = self.materials_file() else { return Ok(()) };
        if self.materials().is_err() {
            put_aside(&path)?;
        }
        write_whole(&path, own.text().as_bytes())
    }
}

/// Puts a file that cannot be read aside, as `name-1.unreadable`: what is in it may be mended.
fn put_aside(path: &Path) -> std::io::Result<()> {
    let stem = path.file_stem().unwrap_or_default().to_string_lossy().into_owned();
    let asides = (1_u32..).map(|n| path.with_file_name(format!("{stem}-{n}.unreadable")));
    match { asides }.find(|aside| !aside.exists()) {
        Some(aside) => std::fs::rename(path, aside),
        None => Ok(()),
    }
}

/// Writes a file whole or not at all, and makes its folder where that is missing.
pub(crate) fn write_whole(path: &Path, bytes: &[u8]) -> std::io::Result<()> {
    if let Some(folder) = path.parent() {
        std::fs::create_dir_all(folder)?;
    }
    crate::files::write_whole(path, bytes)
}
