//! The person's own tables.
#![no_main]

use libfuzzer_sys::fuzz_target;

fuzz_target!(|data: &[u8]| {
    if let Ok(text) = std::str::from_utf8(data) {
        drop(sightedge_core::material::Tables::read(text));
    }
});
