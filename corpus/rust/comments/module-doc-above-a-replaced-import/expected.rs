//! Tide feeds of the dashboard.
use tide::wire;
use tide::wharf;
use std::net;

fn feed() {}
