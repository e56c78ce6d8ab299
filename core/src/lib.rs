//! Measures, documents, layout and rules of window mats.
