//! The program around the core.
