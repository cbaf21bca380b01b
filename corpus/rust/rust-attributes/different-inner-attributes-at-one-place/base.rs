//! Tides.

fn a() {}
