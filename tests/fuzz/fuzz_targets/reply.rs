//! What a decoder in a process of its own may answer, and be asked.
#![no_main]

use libfuzzer_sys::fuzz_target;

fuzz_target!(|data: &[u8]| {
    let token = sightedge_pictures::CancelToken::default();
    drop(sightedge_pictures::job::Reply::read(&mut &data[..], &token));
    drop(sightedge_pictures::job::Request::read(&mut &data[..]));
});
