//! Tides.
#![forbid(unsafe_code)]

fn a() {}
