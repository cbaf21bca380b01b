use moor::{pick, Level};
use quay::board::{load, Tide};
use tide::draw;

fn chart() {}
