//! The words of the job with a small picture each, and what marks and abbreviations mean.

mod glossary;
mod legend;
mod picture;

pub use glossary::{TERMS, Term};
pub use legend::{abbreviations, severities};
pub use picture::{Part, SIZE, Shade, show};
