mod board;
mod feed;
mod gauge;
mod predict;

fn main() {}
