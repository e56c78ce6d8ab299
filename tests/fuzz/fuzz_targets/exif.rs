//! EXIF data in a JPEG that is sound otherwise.
#![no_main]

use libfuzzer_sys::fuzz_target;

fuzz_target!(|data: &[u8]| {
    sightedge_fuzz::segment(0xe1, b"Exif\0\0", data);
});
