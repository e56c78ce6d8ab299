//! What several screens show alike: the checks of a plan, and which print lies at the bench.

pub(crate) mod checks;
pub(crate) mod print_choice;
pub(crate) mod side;
