//! JFIF and other application segments before a sound picture.
#![no_main]

use libfuzzer_sys::fuzz_target;

fuzz_target!(|data: &[u8]| {
    if let Some((kind, rest)) = data.split_first() {
        sightedge_fuzz::segment(0xe0 | (kind & 15), b"", rest);
    }
});
