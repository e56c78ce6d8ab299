//! A disk whose steps can be made to fail.

use std::cell::{Cell, RefCell};
use std::fs::Permissions;
use std::io;
use std::path::{Path, PathBuf};
use std::rc::Rc;
use std::time::SystemTime;

use sightedge_core::file::store::{Disk, NewFile, System};

/// What fails on a disk.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Failing {
    /// The step of that number, and none after it.
    Once(usize),
    /// That step and all after it, as when the power is cut or the disk pulled out.
    From(usize),
}

/// The system's disk, with failures. A write that fails has written half.
#[derive(Debug)]
pub struct Faulty(Rc<State>);

#[derive(Debug)]
struct State {
    failing: Failing,
    second_names: bool,
    steps: RefCell<Vec<&'static str>>,
    failed: Cell<bool>,
}

impl Faulty {
    /// Fails so; without second names a file cannot be hard-linked.
    pub fn new(failing: Failing, second_names: bool) -> Self {
        let steps = RefCell::default();
        Self(Rc::new(State { failing, second_names, steps, failed: Cell::new(false) }))
    }

    /// Fails nowhere.
    pub fn none() -> Self {
        Self::new(Failing::Once(usize::MAX), true)
    }

    /// How it fails.
    pub fn failing(&self) -> Failing {
        self.0.failing
    }

    /// The steps that were tried.
    pub fn steps(&self) -> Vec<&'static str> {
        self.0.steps.borrow().clone()
    }

    /// Whether any failed.
    pub fn has_failed(&self) -> bool {
        self.0.failed.get()
    }
}

impl State {
    fn step(&self, name: &'static str) -> io::Result<()> {
        let mut steps = self.steps.borrow_mut();
        let n = steps.len();
        steps.push(name);
        let fails = match self.failing {
            Failing::Once(at) => n == at,
            Failing::From(at) => n >= at,
        };
        if fails {
            self.failed.set(true);
            return Err(io::Error::other("injected"));
        }
        Ok(())
    }
}

impl Disk for Faulty {
    fn read(&self, path: &Path, most: u64) -> io::Result<Option<Vec<u8>>> {
        self.0.step("read")?;
        System.read(path, most)
    }
    fn link_target(&self, path: &Path) -> io::Result<Option<PathBuf>> {
        self.0.step("link")?;
        System.link_target(path)
    }
    fn permissions(&self, path: &Path) -> io::Result<Permissions> {
        self.0.step("permissions")?;
        System.permissions(path)
    }
    fn written_at(&self, path: &Path) -> io::Result<Option<SystemTime>> {
        self.0.step("written at")?;
        System.written_at(path)
    }
    fn create(&self, path: &Path) -> io::Result<Box<dyn NewFile>> {
        self.0.step("create")?;
        let file = System.create(path)?;
        Ok(Box::new(FaultyFile { state: Rc::clone(&self.0), file }))
    }
    fn hard_link(&self, from: &Path, to: &Path) -> io::Result<()> {
        if !self.0.second_names {
            return Err(io::ErrorKind::Unsupported.into());
        }
        self.0.step("hard link")?;
        System.hard_link(from, to)
    }
    fn rename(&self, from: &Path, to: &Path) -> io::Result<()> {
        self.0.step("rename")?;
        System.rename(from, to)
    }
    fn remove(&self, path: &Path) -> io::Result<()> {
        self.0.step("remove")?;
        System.remove(path)
    }
    fn sync_folder(&self, folder: &Path) -> io::Result<()> {
        self.0.step("sync folder")?;
        System.sync_folder(folder)
    }
    fn names(&self, folder: &Path) -> io::Result<Vec<String>> {
        self.0.step("names")?;
        System.names(folder)
    }
}

struct FaultyFile {
    state: Rc<State>,
    file: Box<dyn NewFile>,
}

impl NewFile for FaultyFile {
    fn set_permissions(&mut self, permissions: Permissions) -> io::Result<()> {
        self.state.step("set permissions")?;
        self.file.set_permissions(permissions)
    }
    fn write(&mut self, bytes: &[u8]) -> io::Result<()> {
        if let Err(error) = self.state.step("write") {
            self.file.write(&bytes[..bytes.len() / 2])?;
            return Err(error);
        }
        self.file.write(bytes)
    }
    fn sync(&mut self) -> io::Result<()> {
        self.state.step("sync")?;
        self.file.sync()
    }
}
