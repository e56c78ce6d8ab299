//! The window without a display: the same frames, read as a screen reader reads them and
//! touched as a hand touches them.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::as_conversions,
    clippy::cast_possible_truncation,
    clippy::cast_precision_loss,
    clippy::cast_sign_loss,
    clippy::float_cmp,
    clippy::iter_over_hash_type,
    clippy::single_match_else,
    clippy::single_match,
    reason = "helpers of tests fail by panicking, and pixels are small numbers"
)]

mod behind;
mod bench;
mod bench_prints;
mod colours;
mod cutting;
mod documents;
mod editions;
mod editions_live;
mod editions_put_right;
mod editions_same_words;
mod editions_several;
mod fields;
mod hand;
mod hints;
mod lists;
mod materials;
mod mats;
mod printouts;

// Its slow decoder is a script.
#[cfg(unix)]
mod openings;
mod pictures;
mod rests;
mod screen;
mod shell;
mod side;
mod still;
mod support;
