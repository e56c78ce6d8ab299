//! A colour profile in a JPEG that is sound otherwise.
#![no_main]

use libfuzzer_sys::fuzz_target;

fuzz_target!(|data: &[u8]| {
    sightedge_fuzz::segment(0xe2, b"ICC_PROFILE\0\x01\x01", data);
});
