//! The folder of a studio. It must be on a disk of this machine: SQLite's shared memory and
//! locks do not hold across a network.
//!
//! On Linux the kernel's own table of mounts says what kind of file system a folder is on. On
//! Windows a path that names a server (`\\server\share`) is refused; a drive letter that
//! stands for one, and a network volume on macOS, cannot be recognised without system
//! calls that this crate does not make.

use std::path::{Component, Path, PathBuf, Prefix};

use crate::Error;

/// The record's file.
pub const FILE: &str = "studio.sqlite";
/// The folder of its backups.
pub const BACKUPS: &str = "backups";

/// Kinds of file systems that reach over a network. Source: the names in Linux's own
/// documentation of file systems; those behind `fuse.` from memory.
const NETWORK: &[&str] = &[
    "nfs",
    "nfs4",
    "cifs",
    "smb3",
    "smbfs",
    "afs",
    "ceph",
    "9p",
    "ncpfs",
    "coda",
    "orangefs",
    "glusterfs",
    "lustre",
    "gfs2",
    "ocfs2",
    "davfs",
    "davfs2",
    "beegfs",
    "gpfs",
    "fuse.sshfs",
    "fuse.rclone",
    "fuse.s3fs",
    "fuse.curlftpfs",
    "fuse.glusterfs",
    "fuse.davfs2",
    "fuse.smbnetfs",
    "fuse.gvfsd-fuse",
    "fuse.cephfs",
    "fuse.ceph",
    "fuse.google-drive-ocamlfuse",
    "fuse.onedriver",
    "fuse.juicefs",
    "fuse.goofys",
];

/// Where a studio's record is kept unless the person chooses: in their folder of data.
pub fn default_folder_in(data: &Path) -> PathBuf {
    data.join("sightedge").join("studio")
}

/// The kind of file system that `folder` is on, by a table as in `/proc/self/mountinfo`:
/// the last one of the longest mount point above it.
/// Source: `proc_pid_mountinfo(5)`.
fn kind_of<'a>(table: &'a str, folder: &Path) -> Option<&'a str> {
    let mut best: Option<(usize, &str)> = None;
    for line in table.lines() {
        let (before, after) = line.split_once(" - ")?;
        let point = plain(before.split(' ').nth(4)?);
        let kind = after.split(' ').next()?;
        let point = Path::new(&point);
        if !folder.starts_with(point) {
            continue;
        }
        let depth = point.components().count();
        if best.is_none_or(|(deepest, _)| depth >= deepest) {
            best = Some((depth, kind));
        }
    }
    best.map(|(_, kind)| kind)
}

/// Blanks and backslashes are written in octal there.
fn plain(point: &str) -> String {
    point
        .replace("\\040", " ")
        .replace("\\011", "\t")
        .replace("\\012", "\n")
        .replace("\\134", "\\")
}

/// Refuses a folder on a network drive, as far as this system shows it.
///
/// # Errors
/// Where it is on one; the folder must exist.
pub fn refuse_network(folder: &Path) -> Result<(), Error> {
    let shown = folder;
    let folder = folder
        .canonicalize()
        .map_err(|error| Error::Folder { folder: shown.to_owned(), why: error.to_string() })?;
    let table = std::fs::read_to_string("/proc/self/mountinfo").unwrap_or_default();
    refuse_by(&table, &folder)
}

fn refuse_by(table: &str, folder: &Path) -> Result<(), Error> {
    let server = folder.components().next().is_some_and(|first| {
        let Component::Prefix(prefix) = first else { return false };
        matches!(prefix.kind(), Prefix::UNC(..) | Prefix::VerbatimUNC(..))
    });
    let kind = if server { Some("a server's share") } else { kind_of(table, folder) };
    match kind {
        Some(kind) if server || NETWORK.contains(&kind) => {
            Err(Error::Network { folder: folder.to_owned(), kind: kind.to_owned() })
        }
        _ => Ok(()),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const TABLE: &str = "\
22 28 0:20 / / rw,relatime shared:1 - ext4 /dev/sda1 rw
36 22 98:0 /mnt1 /mnt/prints rw,noatime master:1 - nfs4 server:/prints rw,errors=continue
37 36 98:1 / /mnt/prints/fast rw - xfs /dev/sdb1 rw
38 22 0:50 / /home/a\\040b/cloud rw - fuse.sshfs a@b: rw
39 22 0:51 / /twice rw - cifs //s/x rw
40 22 0:52 / /twice rw - ext4 /dev/sdc rw
";

    /// Source: `proc_pid_mountinfo(5)`, the example line and its fields.
    #[test]
    fn network_drives_are_recognised_by_the_table_of_mounts() {
        #[track_caller]
        fn case(folder: &str, wanted: Option<&str>) {
            let refused = match refuse_by(TABLE, Path::new(folder)) {
                Ok(()) => None,
                Err(Error::Network { kind, .. }) => Some(kind),
                Err(other) => panic!("{other}"),
            };
            assert_eq!(refused.as_deref(), wanted, "{folder}");
        }
        case("/home/me", None);
        case("/mnt/prints", Some("nfs4"));
        case("/mnt/prints/2025", Some("nfs4"));
        case("/mnt/prints/fast/2025", None);
        case("/mnt/printsroom", None);
        case("/home/a b/cloud/studio", Some("fuse.sshfs"));
        case("/twice", None);
    }

    #[test]
    fn the_refusal_says_what_to_do() {
        let refused = refuse_by(TABLE, Path::new("/mnt/prints")).unwrap_err().to_string();
        assert!(
            refused.starts_with("/mnt/prints is on a network drive (nfs4): two machines")
                && refused.contains("Choose a folder on a disk of this machine"),
            "{refused}"
        );
    }

    #[test]
    fn an_unreadable_table_refuses_nothing() {
        for table in ["", "nonsense", "1 2 3 - x", "a b c d e"] {
            assert!(refuse_by(table, Path::new("/home")).is_ok(), "{table}");
        }
    }
}
