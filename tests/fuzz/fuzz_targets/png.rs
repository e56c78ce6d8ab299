//! PNG: chunks, and the rows that come of them.
#![no_main]

use libfuzzer_sys::fuzz_target;

fuzz_target!(|data: &[u8]| {
    sightedge_fuzz::picture("png", data);
});
