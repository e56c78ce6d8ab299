//! A length as it is typed: what is read is written, and read as the same.
#![no_main]

use libfuzzer_sys::fuzz_target;
use sightedge_core::length::{Unit, parse, parse_list, parse_pair};

fuzz_target!(|data: &[u8]| {
    let Ok(text) = std::str::from_utf8(data) else { return };
    for unit in [Unit::Inch, Unit::Millimetre] {
        if let Ok(length) = parse(text, unit) {
            assert_eq!(parse(&length.exact(unit), unit), Ok(length));
        }
        drop(parse_pair(text, unit));
        drop(parse_list(text, unit));
    }
});
