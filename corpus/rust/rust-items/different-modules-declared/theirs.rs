mod board;
mod feed;
mod predict;

fn main() {}
