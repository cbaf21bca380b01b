use moor::pick;
use quay::board::{load, Tide};
use tide::draw;

fn chart() {}
