//! Colours for the mat, drawn from a picture's pixels.
