//! Opening pictures in their true colours.
