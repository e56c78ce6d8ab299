//! What was kept between sessions, to be read: writing is requested by
//! [`Action::Keep`](crate::window::request::Action::Keep).

use std::path::PathBuf;

use serde::de::DeserializeOwned;
use sightedge_service::cutting::model::{Cutting, Shop};
use sightedge_service::record::printouts::Labels;
use sightedge_service::storage::Storage;

use super::requests::Requests;
use crate::window::workers::{Keep, KeptFile};

/// A view of the window's storage that cannot write.
#[derive(Clone, Copy, Debug)]
pub struct StorageView<'a>(&'a Storage);

impl<'a> StorageView<'a> {
    /// A view of `storage`.
    pub const fn new(storage: &'a Storage) -> Self {
        Self(storage)
    }

    /// The stock of sheets and the cutter; `None` where none was kept.
    pub fn stock(self, requests: &mut Requests) -> Option<Shop> {
        self.read(KeptFile::Stock, requests)
    }

    /// The plan that is being cut; `None` where none was kept.
    pub fn cutting(self, requests: &mut Requests) -> Option<Cutting> {
        self.read(KeptFile::Cutting, requests)
    }

    /// How labels are printed; `None` where that was not kept.
    pub fn labels(self, requests: &mut Requests) -> Option<Labels> {
        self.read(KeptFile::Labels, requests)
    }

    /// Where a person's own materials are kept.
    pub fn materials_file(self) -> Option<PathBuf> {
        self.0.materials_file()
    }

    /// A file that cannot be read is put aside after the frame, not lost; then it is said where
    /// it is.
    fn read<T: DeserializeOwned>(self, file: KeptFile, requests: &mut Requests) -> Option<T> {
        self.0.read_as_it_is(file.name()).unwrap_or_else(|_| {
            requests.keep(Keep::PutAside(file));
            None
        })
    }
}
