//! JPEG: markers, segments, Huffman codes, coefficients.
#![no_main]

use libfuzzer_sys::fuzz_target;

fuzz_target!(|data: &[u8]| {
    sightedge_fuzz::picture("jpg", data);
});
