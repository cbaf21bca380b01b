//! Tides.
#![warn(missing_docs)]

fn a() {}
