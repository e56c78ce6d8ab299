//! Looking at the monitors again and again: what changed is found without asking twice.

use std::path::Path;
use std::sync::Arc;

use sightedge_pictures::ToDisplay;

use super::{Colours, KeptMonitor, Monitor, Origin, kept};

/// A monitor as the window's own system tells of it, where no X server does.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Told {
    /// Its name.
    pub output: String,
    /// Its top left corner, in pixels.
    pub at: (i32, i32),
    /// Its pixels across and down.
    pub pixels: (u32, u32),
}

/// Profiles are this large at most: tables of 33 steps take 1 MB.
const LARGEST: u64 = 16 << 20;

/// Looks at the monitors.
#[derive(Debug, Default)]
pub struct Look {
    #[cfg(all(unix, not(target_os = "macos")))]
    system: system::System,
    /// Monitors that take the place of the system's, for tests.
    given: Option<Vec<Monitor>>,
    /// Profiles that were read: the same bytes are not taken apart again.
    read: Vec<(Vec<u8>, Read)>,
}

/// What came of reading a profile.
type Read = Result<Arc<ToDisplay>, String>;

/// A monitor with what the system has for it.
#[derive(Clone, Debug, PartialEq, Eq)]
struct Found {
    told: Told,
    edid: Option<super::Edid>,
    mm: Option<(u32, u32)>,
    profile: Option<Vec<u8>>,
}

impl Look {
    /// Finds these, whatever the system has: for a window without a screen.
    pub fn given(monitors: Vec<Monitor>) -> Self {
        Self { given: Some(monitors), ..Self::default() }
    }

    /// All monitors as they are now. `told` are those that the window knows, for where there is
    /// no X server; `all` is what a person chose for them.
    pub fn monitors(&mut self, told: &[Told], all: &[KeptMonitor]) -> Vec<Monitor> {
        let monitors: Vec<Monitor> = if let Some(given) = self.given.clone() {
            given.into_iter().map(|one| self.with_own(one, all)).collect()
        } else {
            let found = self.found(told);
            found.into_iter().map(|found| self.monitor(found, all)).collect()
        };
        // Only what is used is remembered.
        self.read.retain(|(_, read)| {
            monitors.iter().any(|monitor| match (&monitor.colours, read) {
                (Colours::Profile(_, used), Ok(read)) => Arc::ptr_eq(used, read),
                (Colours::Refused(_, used), Err(read)) => used == read,
                _ => false,
            })
        });
        monitors
    }

    #[cfg(all(unix, not(target_os = "macos")))]
    fn found(&mut self, told: &[Told]) -> Vec<Found> {
        self.system.found(told)
    }

    #[cfg(not(all(unix, not(target_os = "macos"))))]
    fn found(&mut self, told: &[Told]) -> Vec<Found> {
        let bare =
            |told: &Told| Found { told: told.clone(), edid: None, mm: None, profile: None };
        told.iter().map(bare).collect()
    }

    fn monitor(&mut self, found: Found, all: &[KeptMonitor]) -> Monitor {
        let Found { told, edid, mm, profile } = found;
        let (model, serial) = edid.map(|edid| (edid.name, edid.serial)).unwrap_or_default();
        let monitor = Monitor {
            output: told.output,
            model,
            serial,
            at: told.at,
            pixels: told.pixels,
            mm,
            colours: profile
                .map_or(Colours::Assumed, |bytes| self.colours(Origin::Desktop, bytes)),
        };
        self.with_own(monitor, all)
    }

    /// A person's own file goes before what the desktop has.
    fn with_own(&mut self, mut monitor: Monitor, all: &[KeptMonitor]) -> Monitor {
        let own = kept(all, &monitor.key()).and_then(|one| one.profile.as_deref());
        if let Some(path) = own {
            let origin = Origin::Own(path.to_owned());
            monitor.colours = match bytes(path) {
                Ok(bytes) => self.colours(origin, bytes),
                Err(why) => Colours::Refused(origin, why),
            };
        }
        monitor
    }

    fn colours(&mut self, origin: Origin, bytes: Vec<u8>) -> Colours {
        let known = self.read.iter().find(|(read, _)| *read == bytes);
        let known = known.map(|(_, to)| to.clone());
        let read = known.unwrap_or_else(|| {
            let to =
                ToDisplay::new(&bytes).map(Arc::new).map_err(|refused| refused.to_string());
            self.read.push((bytes, to.clone()));
            to
        });
        match read {
            Ok(to) => Colours::Profile(origin, to),
            Err(why) => Colours::Refused(origin, why),
        }
    }
}

/// A profile's bytes, within limits.
fn bytes(path: &Path) -> Result<Vec<u8>, String> {
    let unread = |error: std::io::Error| {
        format!("it cannot be read ({error}): choose the file again, or use none of your own")
    };
    let length = std::fs::metadata(path).map_err(unread)?.len();
    if length > LARGEST {
        return Err("it is far too large for a colour profile: choose another file".to_owned());
    }
    std::fs::read(path).map_err(unread)
}

/// Reads a file that a person chose as a monitor's profile; gives what it calls itself.
///
/// # Errors
/// Why it cannot serve, and what to do.
pub fn try_profile(path: &Path) -> Result<String, String> {
    let bytes = bytes(path)?;
    let to = ToDisplay::new(&bytes).map_err(|refused| refused.to_string())?;
    Ok(to.name().to_owned())
}

#[cfg(all(unix, not(target_os = "macos")))]
mod system {
    use std::collections::BTreeMap;
    use std::path::{Path, PathBuf};

    use super::{Found, Told, bytes};
    use crate::monitors::{Edid, colord, x11};

    /// Looks between two questions to colord: its answers come through another process.
    const COLORD_EACH: u32 = 10;

    #[derive(Debug, Default)]
    pub(super) struct System {
        server: Option<x11::Server>,
        looks: u32,
        /// What colord said of each monitor last.
        colord: BTreeMap<String, Option<PathBuf>>,
    }

    impl System {
        pub(super) fn found(&mut self, told: &[Told]) -> Vec<Found> {
            // The window is on Wayland wherever it can be, and its desktop converts colours
            // itself where it knows a profile.
            if set("WAYLAND_DISPLAY") {
                return told.iter().map(by_kernel).collect();
            }
            if self.server.is_none() && set("DISPLAY") {
                self.server = x11::Server::connect();
            }
            let Some(monitors) = self.server.as_ref().and_then(x11::Server::monitors) else {
                self.server = None;
                return told.iter().map(by_kernel).collect();
            };
            if self.looks.is_multiple_of(COLORD_EACH) {
                self.colord.clear();
            }
            self.looks = self.looks.wrapping_add(1);
            monitors.into_iter().map(|monitor| self.with_colord(monitor)).collect()
        }

        fn with_colord(&mut self, monitor: x11::Told) -> Found {
            let x11::Told { output, at, pixels, mm, edid, profile } = monitor;
            let profile = profile.or_else(|| {
                let asked = self
                    .colord
                    .entry(output.clone())
                    .or_insert_with(|| colord::profile_of(&output));
                bytes(asked.as_deref()?).ok()
            });
            Found { told: Told { output, at, pixels }, edid, mm, profile }
        }
    }

    fn set(name: &str) -> bool {
        std::env::var_os(name).is_some_and(|value| !value.is_empty())
    }

    /// What the kernel has of a monitor, found by the plug that both call alike.
    fn by_kernel(told: &Told) -> Found {
        let edid = edid_of(Path::new("/sys/class/drm"), &told.output);
        let mm = edid.as_ref().and_then(|edid| edid.mm);
        Found { told: told.clone(), edid, mm, profile: None }
    }

    /// Its folder is called by the card and the plug, as `card0-DP-1`.
    fn edid_of(folder: &Path, output: &str) -> Option<Edid> {
        let plug = format!("-{output}");
        std::fs::read_dir(folder)
            .ok()?
            .flatten()
            .filter(|entry| entry.file_name().to_string_lossy().ends_with(&plug))
            .find_map(|entry| Edid::read(&std::fs::read(entry.path().join("edid")).ok()?))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn found(profile: Option<Vec<u8>>) -> Found {
        let told = Told { output: "DP-1".into(), at: (0, 0), pixels: (1920, 1080) };
        Found { told, edid: None, mm: None, profile }
    }

    #[test]
    fn a_persons_own_file_goes_first_and_what_cannot_serve_is_told() {
        let mut look = Look::default();
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("own.icc");
        let own = |path: &Path| KeptMonitor {
            key: "DP-1".into(),
            profile: Some(path.to_owned()),
            measured: None,
        };
        assert_eq!(look.monitor(found(None), &[]).colours, Colours::Assumed);
        let spoilt = look.monitor(found(Some(vec![1, 2, 3])), &[]).colours;
        assert!(
            matches!(&spoilt, Colours::Refused(Origin::Desktop, why)
            if why.starts_with("this colour profile is damaged")),
            "{spoilt:?}"
        );
        let missing = look.monitor(found(None), &[own(&path)]).colours;
        assert!(
            matches!(&missing, Colours::Refused(Origin::Own(_), why)
            if why.starts_with("it cannot be read (")),
            "{missing:?}"
        );
        assert_eq!(
            try_profile(&path).unwrap_err(),
            match missing {
                Colours::Refused(_, why) => why,
                _ => String::new(),
            }
        );
    }
}
