//! Tide feeds of the dashboard.
use std::net;
use tide::wire;
use tide::wharf;

fn feed() {}
