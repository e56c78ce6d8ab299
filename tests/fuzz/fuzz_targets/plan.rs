//! A saved plan: what is read can be written, and means the same again.
#![no_main]

use libfuzzer_sys::fuzz_target;

fuzz_target!(|data: &[u8]| {
    if let Ok(found) = sightedge_core::file::read_versioned_bytes(data, "plan") {
        let text = sightedge_core::file::write(&found.document);
        assert_eq!(sightedge_core::file::read(&text, "again"), Ok(found.document));
    }
});
