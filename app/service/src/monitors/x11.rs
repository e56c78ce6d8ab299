//! Monitors by the X server: their places, sizes and profiles.
//!
//! Sources: The X Resize, Rotate and Reflect Extension, version 1.5 (monitors, output properties); ICC
//! Profiles in X Specification 0.4 (`_ICC_PROFILE` on the root window for the first monitor,
//! `_ICC_PROFILE_n` for the others, `_ICC_PROFILE` on an output).

use x11rb::connection::Connection;
use x11rb::protocol::randr::ConnectionExt as _;
use x11rb::protocol::xproto::{Atom, AtomEnum, ConnectionExt as _, Window};
use x11rb::rust_connection::RustConnection;

use super::Edid;

/// A monitor as the server tells of it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Told {
    pub(super) output: String,
    pub(super) at: (i32, i32),
    pub(super) pixels: (u32, u32),
    pub(super) mm: Option<(u32, u32)>,
    pub(super) edid: Option<Edid>,
    pub(super) profile: Option<Vec<u8>>,
}

/// The most that is read of a property, in words of four bytes: 16 MB of profile.
const MOST: u32 = 4 << 20;

/// A connection of our own, on which monitors are asked for again and again.
pub(super) struct Server {
    connection: RustConnection,
    root: Window,
    edid: Atom,
    profile: Atom,
}

impl std::fmt::Debug for Server {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("Server").field("root", &self.root).finish_non_exhaustive()
    }
}

impl Server {
    /// Connects to `$DISPLAY`; `None` where there is no server that knows monitors.
    pub(super) fn connect() -> Option<Self> {
        let (connection, screen) = x11rb::connect(None).ok()?;
        let root = connection.setup().roots.get(screen)?.root;
        // A server answers by the version that it was asked for.
        let version = connection.randr_query_version(1, 5).ok()?.reply().ok()?;
        if (version.major_version, version.minor_version) < (1, 5) {
            return None;
        }
        let edid = atom(&connection, "EDID")?;
        let profile = atom(&connection, "_ICC_PROFILE")?;
        Some(Self { connection, root, edid, profile })
    }

    /// All monitors as they are now; `None` once the server is gone.
    pub(super) fn monitors(&self) -> Option<Vec<Told>> {
        let reply = self.connection.randr_get_monitors(self.root, true).ok()?.reply().ok()?;
        let monitors = reply.monitors.into_iter().enumerate();
        Some(
            monitors
                .filter_map(|(index, monitor)| {
                    let output = monitor.outputs.first().copied();
                    let of_output = |property| self.output_property(output?, property);
                    let (width, height) =
                        (monitor.width_in_millimeters, monitor.height_in_millimeters);
                    Some(Told {
                        output: self.name(monitor.name)?,
                        at: (monitor.x.into(), monitor.y.into()),
                        pixels: (monitor.width.into(), monitor.height.into()),
                        mm: (width > 0 && height > 0).then_some((width, height)),
                        edid: of_output(self.edid).and_then(|bytes| Edid::read(&bytes)),
                        profile: of_output(self.profile).or_else(|| self.of_root(index)),
                    })
                })
                .collect(),
        )
    }

    fn name(&self, atom: Atom) -> Option<String> {
        let reply = self.connection.get_atom_name(atom).ok()?.reply().ok()?;
        Some(String::from_utf8_lossy(&reply.name).into_owned())
    }

    fn output_property(&self, output: u32, property: Atom) -> Option<Vec<u8>> {
        let any = AtomEnum::ANY;
        let asked = self
            .connection
            .randr_get_output_property(output, property, any, 0, MOST, false, false)
            .ok()?;
        let reply = asked.reply().ok()?;
        (reply.format == 8 && !reply.data.is_empty()).then_some(reply.data)
    }

    /// The profile of one monitor by the root window's properties.
    fn of_root(&self, index: usize) -> Option<Vec<u8>> {
        let property = match index {
            0 => self.profile,
            n => atom(&self.connection, &format!("_ICC_PROFILE_{n}"))?,
        };
        let any = AtomEnum::ANY;
        let asked =
            self.connection.get_property(false, self.root, property, any, 0, MOST).ok()?;
        let reply = asked.reply().ok()?;
        (reply.format == 8 && !reply.value.is_empty()).then_some(reply.value)
    }
}

fn atom(connection: &RustConnection, name: &str) -> Option<Atom> {
    Some(connection.intern_atom(false, name.as_bytes()).ok()?.reply().ok()?.atom)
}
