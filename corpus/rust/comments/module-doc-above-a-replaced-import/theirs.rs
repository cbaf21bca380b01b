//! Tide feeds of the dashboard.
use tide::wire;
use tide::wharf;

fn feed() {}
