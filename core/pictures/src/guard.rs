//! Panics of decoders, turned into errors.

use std::panic::{AssertUnwindSafe, catch_unwind};

use crate::PictureError;

/// The last resort: a decoder's panic is an error like any other.
pub(crate) fn guarded<T>(
    work: impl FnOnce() -> Result<T, PictureError>,
) -> Result<T, PictureError> {
    catch_unwind(AssertUnwindSafe(work)).unwrap_or_else(|panic| Err(crashed(panic.as_ref())))
}

pub(crate) fn crashed(panic: &(dyn std::any::Any + Send)) -> PictureError {
    let text = panic
        .downcast_ref::<&str>()
        .map(ToString::to_string)
        .or_else(|| panic.downcast_ref::<String>().cloned());
    PictureError::Crashed { detail: text.unwrap_or_else(|| "it could not be decoded".into()) }
}
