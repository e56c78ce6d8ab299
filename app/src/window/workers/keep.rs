//! What screens keep between sessions, written off the frame, in the order of the requests.

use std::time::Duration;

use sightedge_pictures::CancelToken;
use sightedge_service::cutting::model::{Cutting, Shop};
use sightedge_service::record::printouts::Labels;
use sightedge_service::storage::Storage;

use super::replies::ReplySender;
use super::worker::Job;

/// Something to be kept in the window's storage.
#[derive(Clone, Debug)]
pub enum Keep {
    /// The stock of sheets and the cutter.
    Stock(Box<Shop>),
    /// The plan that is being cut.
    Cutting(Box<Cutting>),
    /// How labels are printed.
    Labels(Box<Labels>),
    /// Puts a file aside that cannot be read, so that it is not lost.
    PutAside(KeptFile),
}

/// A file of the window's storage.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum KeptFile {
    /// The stock of sheets and the cutter.
    Stock,
    /// The plan that is being cut.
    Cutting,
    /// How labels are printed.
    Labels,
}

impl KeptFile {
    /// Its name.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Stock => "stock.ron",
            Self::Cutting => "cutting.ron",
            Self::Labels => "labels.ron",
        }
    }
}

/// Writes into the storage; replies what the person should know.
pub(super) struct Keeper(pub(super) Storage);

impl Job for Keeper {
    type Request = Keep;
    type Reply = String;

    /// What was kept last is on the disk before the program ends.
    const FINISH_WITHIN: Duration = Duration::from_secs(10);

    fn run(&mut self, keep: Keep, _: &CancelToken, _: &ReplySender<String>) -> Option<String> {
        let Self(storage) = self;
        let not_kept = |file: KeptFile, error: std::io::Error| match file {
            KeptFile::Stock | KeptFile::Cutting => {
                format!("{} could not be kept: {error}. Make room on the disk.", file.name())
            }
            KeptFile::Labels => format!("How labels are printed could not be kept: {error}"),
        };
        let (file, written) = match keep {
            Keep::Stock(shop) => {
                (KeptFile::Stock, storage.write(KeptFile::Stock.name(), &shop))
            }
            Keep::Cutting(cutting) => {
                (KeptFile::Cutting, storage.write(KeptFile::Cutting.name(), &cutting))
            }
            Keep::Labels(labels) => {
                (KeptFile::Labels, storage.write(KeptFile::Labels.name(), &labels))
            }
            Keep::PutAside(file) => {
                return match file {
                    KeptFile::Stock => storage.read::<Shop>(file.name()).1,
                    KeptFile::Cutting => storage.read::<Cutting>(file.name()).1,
                    KeptFile::Labels => storage.read::<Labels>(file.name()).1,
                };
            }
        };
        written.err().map(|error| not_kept(file, error))
    }

    fn panicked(&mut self, words: String) -> Option<String> {
        Some(sightedge_service::wording::whole(&words))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::window::workers::Worker;

    /// What was requested before the window closed is written, in that order.
    #[test]
    fn what_is_kept_last_outlives_the_window() {
        let folder = tempfile::tempdir().unwrap();
        let storage = Storage::at(folder.path());
        let mut worker = Worker::new(egui::Context::default(), Keeper(storage.clone()));
        for kerf in 0..200 {
            worker.request(Keep::Stock(Box::new(Shop { kerf, ..Shop::default() })));
        }
        drop(worker);
        assert_eq!(storage.read::<Shop>("stock.ron").0.unwrap().kerf, 199);
    }

    /// What is put aside is what stands there when its turn comes: what was kept meanwhile and
    /// can be read stays.
    #[test]
    fn only_what_cannot_be_read_is_put_aside() {
        let folder = tempfile::tempdir().unwrap();
        let storage = Storage::at(folder.path());
        let mut keeper = Keeper(storage.clone());
        let mut put_aside = || {
            let (token, replies) = (CancelToken::default(), ReplySender::to_nobody());
            keeper.run(Keep::PutAside(KeptFile::Stock), &token, &replies)
        };
        std::fs::write(folder.path().join("stock.ron"), "(kerf: ").unwrap();
        let said = put_aside().unwrap();
        assert!(said.contains("stock.ron cannot be read: ") && said.contains("it is now "));
        assert!(folder.path().join("stock.unreadable").exists());
        storage.write("stock.ron", &Shop::default()).unwrap();
        assert_eq!(put_aside(), None);
        assert!(folder.path().join("stock.ron").exists());
    }

    #[test]
    fn what_cannot_be_kept_is_said() {
        let folder = tempfile::tempdir().unwrap();
        let file = folder.path().join("no folder");
        std::fs::write(&file, "").unwrap();
        let mut keeper = Keeper(Storage::at(&file));
        let mut said = |keep| {
            let (token, replies) = (CancelToken::default(), ReplySender::to_nobody());
            keeper.run(keep, &token, &replies).unwrap()
        };
        let stock = said(Keep::Stock(Box::default()));
        assert!(stock.starts_with("stock.ron could not be kept: "), "{stock}");
        assert!(stock.ends_with(". Make room on the disk."), "{stock}");
        let cutting = said(Keep::Cutting(Box::default()));
        assert!(cutting.starts_with("cutting.ron could not be kept: "), "{cutting}");
        let labels = said(Keep::Labels(Box::default()));
        assert!(labels.starts_with("How labels are printed could not be kept: "), "{labels}");
    }
}
