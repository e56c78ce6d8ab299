//! The profile that colord has for a monitor, where the X server knows none.
//!
//! Source: colord's D-Bus interfaces `org.freedesktop.ColorManager` (with its `Device` and
//! `Profile`), on the system bus.

use std::path::PathBuf;

use zbus::zvariant::OwnedObjectPath;
use zbus::{Connection, Proxy};

const SERVICE: &str = "org.freedesktop.ColorManager";

/// The file of the profile that is set for the monitor at `output`; `None` where colord does
/// not run, or knows none.
pub(super) fn profile_of(output: &str) -> Option<PathBuf> {
    pollster::block_on(async {
        let bus = Connection::system().await.ok()?;
        ask(&bus, output).await
    })
}

async fn ask(bus: &Connection, output: &str) -> Option<PathBuf> {
    let manager =
        Proxy::new(bus, SERVICE, "/org/freedesktop/ColorManager", SERVICE).await.ok()?;
    // The name by which the X server knows the monitor is a property of colord's device.
    let device: OwnedObjectPath =
        manager.call("FindDeviceByProperty", &("XRANDR_name", output)).await.ok()?;
    let device =
        Proxy::new(bus, SERVICE, device, "org.freedesktop.ColorManager.Device").await.ok()?;
    // The first is the one that is used.
    let profiles: Vec<OwnedObjectPath> = device.get_property("Profiles").await.ok()?;
    let first = profiles.into_iter().next()?;
    let profile =
        Proxy::new(bus, SERVICE, first, "org.freedesktop.ColorManager.Profile").await.ok()?;
    let file: String = profile.get_property("Filename").await.ok()?;
    (!file.is_empty()).then(|| PathBuf::from(file))
}
