//! Where a plan's picture is, seen from the plan: a path with forward slashes that stays
//! true when the folder is moved, or another system opens it.

use std::ffi::OsString;
use std::path::{Component, Path, PathBuf};

/// A picture whose name cannot be written in a plan.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct ReferenceError {
    picture: PathBuf,
    fault: Fault,
}

#[derive(Clone, Copy, PartialEq, Eq, Debug)]
enum Fault {
    NoFile,
    NotText,
}

impl std::fmt::Display for ReferenceError {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let picture = self.picture.display();
        match self.fault {
            Fault::NoFile => {
                write!(f, "{picture} is not a file: name the picture itself")
            }
            Fault::NotText => write!(
                f,
                "the name {picture} is not readable text (UTF-8), which a plan needs: rename \
                 the picture or its folder"
            ),
        }
    }
}

impl std::error::Error for ReferenceError {}

/// The path from the plan's folder to the picture, with forward slashes; `..` leads upwards.
/// On another drive it is the whole path. Links in folders are followed, so that the way
/// back by [`resolve`] is the same however the folder was reached; the picture's own name is
/// kept, be it a link or not.
///
/// # Errors
/// Where the picture has no name, or one that is no text.
pub fn relative(folder: &Path, picture: &Path) -> Result<String, ReferenceError> {
    let fail = |fault| ReferenceError { picture: picture.to_owned(), fault };
    let name = picture.file_name().ok_or_else(|| fail(Fault::NoFile))?;
    let home = match picture.parent() {
        Some(home) if !home.as_os_str().is_empty() => home,
        _ => Path::new("."),
    };
    let folder = if folder.as_os_str().is_empty() { Path::new(".") } else { folder };
    let path = between(&whole(folder), &whole(home).join(name));
    path.to_str().map(with_slashes).ok_or_else(|| fail(Fault::NotText))
}

/// The picture that a plan in `folder` refers to.
pub fn resolve(folder: &Path, reference: &str) -> PathBuf {
    folder.join(reference)
}

/// A folder's true path, as far as it can be found.
fn whole(folder: &Path) -> PathBuf {
    folder
        .canonicalize()
        .or_else(|_| std::path::absolute(folder))
        .unwrap_or_else(|_| folder.to_owned())
}

/// From one whole path to another; the second itself where they have no root in common.
fn between(folder: &Path, file: &Path) -> PathBuf {
    let from: Vec<Component<'_>> = folder.components().collect();
    let to: Vec<Component<'_>> = file.components().collect();
    let shared = from.iter().zip(&to).take_while(|(a, b)| a == b).count();
    let rooted = to.iter().take(shared).any(|part| *part == Component::RootDir);
    if !rooted {
        return file.to_owned();
    }
    let up = from.iter().skip(shared).map(|_| OsString::from(".."));
    let down = to.iter().skip(shared).map(|part| part.as_os_str().to_owned());
    up.chain(down).collect()
}

/// A backslash parts folders on Windows only; elsewhere it may be part of a name.
fn with_slashes(path: &str) -> String {
    if cfg!(windows) {
        path.trim_start_matches(r"\\?\").replace('\\', "/")
    } else {
        path.to_owned()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn case(folder: &str, picture: &str, wanted: &str) {
        let reference = relative(Path::new(folder), Path::new(picture));
        assert_eq!(reference.as_deref(), Ok(wanted), "{folder} to {picture}");
        let back = resolve(Path::new(folder), wanted);
        let back = relative(Path::new(folder), &back);
        assert_eq!(back.as_deref(), Ok(wanted), "back from {folder} to {picture}");
    }

    #[test]
    fn from_the_plan_to_the_picture() {
        case("/shows/spring", "/shows/spring/slack water.jpg", "slack water.jpg");
        case("/shows/spring", "/shows/spring/scans/a.tif", "scans/a.tif");
        case("/shows/spring", "/shows/a.tif", "../a.tif");
        case("/shows/spring/mats", "/prints/ärmel.jpg", "../../../prints/ärmel.jpg");
        case("/", "/a.jpg", "a.jpg");
        case("", "a.jpg", "a.jpg");
        case(".", "./b/a.jpg", "b/a.jpg");
    }

    #[test]
    fn a_whole_path_stays_whole() {
        let whole = resolve(Path::new("/shows"), "/prints/a.jpg");
        assert_eq!(whole, Path::new("/prints/a.jpg"));
    }

    #[cfg(windows)]
    #[test]
    fn another_drive() {
        case(r"D:\shows", r"E:\prints\a.jpg", "E:/prints/a.jpg");
    }

    #[test]
    fn what_cannot_be_referred_to() {
        let refused = relative(Path::new("/shows"), Path::new("/")).map_err(|e| e.to_string());
        assert_eq!(refused, Err("/ is not a file: name the picture itself".to_owned()));
    }

    #[cfg(unix)]
    #[test]
    fn a_name_that_is_no_text() {
        use std::ffi::OsStr;
        use std::os::unix::ffi::OsStrExt;
        let picture = Path::new("/shows").join(OsStr::from_bytes(b"\xff.jpg"));
        let refused = relative(Path::new("/shows"), &picture).map_err(|e| e.to_string());
        assert!(
            refused.as_ref().is_err_and(|words| words.contains("rename the picture")),
            "{refused:?}"
        );
    }
}
