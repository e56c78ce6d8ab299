//! What is remembered of each monitor.

use std::path::PathBuf;

use serde::{Deserialize, Serialize};

use super::size::Measured;

/// What a person chose for one monitor.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct KeptMonitor {
    /// Which one: see [`Monitor::key`](super::Monitor::key).
    pub key: String,
    /// The person's own colour profile for it.
    pub profile: Option<PathBuf>,
    /// The size of its pixels, where the person measured it.
    pub measured: Option<Measured>,
}

/// What is kept of a monitor, if anything.
pub fn kept<'a>(all: &'a [KeptMonitor], key: &str) -> Option<&'a KeptMonitor> {
    all.iter().find(|one| one.key == key)
}

/// Changes what is kept of a monitor; what then holds nothing is forgotten.
pub fn keep(all: &mut Vec<KeptMonitor>, key: &str, change: impl FnOnce(&mut KeptMonitor)) {
    let mut one = kept(all, key)
        .cloned()
        .unwrap_or_else(|| KeptMonitor { key: key.to_owned(), ..KeptMonitor::default() });
    change(&mut one);
    all.retain(|other| other.key != key);
    if one.profile.is_some() || one.measured.is_some() {
        all.push(one);
    }
}
