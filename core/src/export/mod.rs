//! Writers: a drawing in the outside world's forms.

pub mod raster;
