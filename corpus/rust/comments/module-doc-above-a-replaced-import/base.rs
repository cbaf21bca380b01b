//! Tide feeds of the dashboard.
use std::io;

fn feed() {}
