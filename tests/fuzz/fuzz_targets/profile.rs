//! Colour profiles: read, and put to use.
#![no_main]

use libfuzzer_sys::fuzz_target;

fuzz_target!(|data: &[u8]| {
    if let Ok(profile) = sightedge_pictures::ToSrgb::new(data) {
        for rgb in [[0; 3], [u16::MAX; 3], [1, 20_000, 60_000]] {
            std::hint::black_box(profile.convert(rgb));
        }
    }
});
