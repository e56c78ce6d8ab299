//! What the fuzz targets share. A picture may be refused in words; whatever else ends the
//! decoder is a find.

use std::path::PathBuf;
use std::time::Duration;

use sightedge_pictures::{
    Limits, PictureError, Region, Size, Target, CancelToken, first_look, preview, probe,
};

/// Small, so that every input is through in no time.
const LIMITS: Limits =
    Limits { pixels: 1 << 22, side: 300_000, memory: 128 << 20, time: Duration::from_secs(5) };

/// Opens `bytes` as a file with that ending, in each way that the program does.
///
/// # Panics
/// Where a decoder gave up.
pub fn picture(ending: &str, bytes: &[u8]) {
    let path = file(ending);
    if std::fs::write(&path, bytes).is_err() {
        return;
    }
    let token = CancelToken::default();
    let region = Region { left: 1.0, top: 2.0, width: 5.0, height: 3.5 };
    let told = [
        probe(&path, &LIMITS).map(drop),
        first_look(&path, 64, &LIMITS, &token).map(drop),
        preview(&path, Target::Longest(16), &LIMITS, &token).map(drop),
        preview(&path, Target::Part(region, Size::new(4, 3)), &LIMITS, &token).map(drop),
    ];
    for error in told.into_iter().filter_map(Result::err) {
        assert!(!matches!(error, PictureError::Crashed { .. }), "{error}");
    }
}

/// Opens a sound picture with a segment `0xff kind` before its tables: `head`, then `bytes`.
pub fn segment(kind: u8, head: &[u8], bytes: &[u8]) {
    let bytes = &bytes[..bytes.len().min(65_000)];
    let length = u16::try_from(2 + head.len() + bytes.len()).unwrap_or(u16::MAX);
    let mut all = vec![0xff, 0xd8, 0xff, kind];
    all.extend(length.to_be_bytes());
    all.extend_from_slice(head);
    all.extend_from_slice(bytes);
    all.extend_from_slice(SOUND);
    picture("jpg", &all);
}

/// A grey JPEG of 8 by 8 pixels from its tables on.
const SOUND: &[u8] = include_bytes!("sound.bin");

/// A file of this process alone; in memory where the system has such a place.
fn file(ending: &str) -> PathBuf {
    let memory = PathBuf::from("/dev/shm");
    let folder = if memory.is_dir() { memory } else { std::env::temp_dir() };
    folder.join(format!("sightedge-fuzz-{}.{ending}", std::process::id()))
}
