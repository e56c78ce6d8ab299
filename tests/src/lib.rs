//! Checks of core and app against the outside world.
