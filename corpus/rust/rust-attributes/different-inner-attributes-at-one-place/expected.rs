//! Tides.
#![forbid(unsafe_code)]
#![warn(missing_docs)]

fn a() {}
