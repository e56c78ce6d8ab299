//! What both fronts need and no screen does. The window and the commands hold no rule, no
//! wording of a figure and no transaction of their own: they call this package.

pub mod cutting;
pub mod dates;
pub mod demo;
pub mod files;
pub mod four_sides;
pub mod monitors;
pub mod picture_facts;
pub mod plan_names;
pub mod record;
pub mod recovery;
mod session;
pub mod settings;
pub mod storage;
pub mod usual_words;
pub mod wording;
