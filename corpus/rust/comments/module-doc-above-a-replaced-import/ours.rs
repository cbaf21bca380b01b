//! Tide feeds of the dashboard.
use std::io;
use std::net;

fn feed() {}
