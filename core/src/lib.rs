//! Measures, documents, layout and rules of window mats.
//!
//! All that is true of a mat whether or not a screen exists. Nothing here touches a clock, a
//! locale or a window: those come in as arguments. The modules stand on layers, each using
//! only those above it in this list; `tests/layers.rs` of the tests package holds the order:
//!
//! ```text
//! length · geometry                 exact measures
//! date · money                      a day of the calendar; an amount of money
//! weight                            weights and forces, as text
//! catalogue                         how a print is numbered, and its size written
//! material · spec                   what a person decides: the document
//! layout                            where everything lies: pure, total
//! movement · hinges · package       how the sheet moves, is held and is framed
//! assembly                          all of that together
//! inscription                       what is written on print and mat, and where
//! command · history                 every change has a name; undo
//! differences                       how two mats differ, in words
//! finding · rules                   what is wrong, by how much, and the way out
//! glossary                          the words of the job, each in one sentence
//! drawing · plates                  what is painted, for screen and paper alike
//! derived · figures · steps         all that follows; every number written out
//! export · file                     the outside world's forms
//! ```

pub mod assembly;
pub mod catalogue;
pub mod command;
pub mod date;
pub mod derived;
pub mod differences;
pub mod drawing;
pub mod export;
pub mod figures;
pub mod file;
pub mod finding;
pub mod geometry;
pub mod glossary;
pub mod hinges;
pub mod history;
pub mod inscription;
pub mod layout;
pub mod length;
pub mod material;
pub mod money;
pub mod movement;
pub mod package;
pub mod plates;
pub mod rules;
pub mod spec;
pub mod steps;
pub mod weight;

#[cfg(test)]
pub(crate) mod sample;
