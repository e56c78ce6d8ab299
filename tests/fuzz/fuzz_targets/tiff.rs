//! TIFF: tags, strips and tiles, LZW, PackBits.
#![no_main]

use libfuzzer_sys::fuzz_target;

fuzz_target!(|data: &[u8]| {
    sightedge_fuzz::picture("tif", data);
});
