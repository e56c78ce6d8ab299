//! Stock sheets into boards by straight edge-to-edge cuts.
