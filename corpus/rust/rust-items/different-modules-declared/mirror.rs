mod board;
mod feed;
mod predict;
mod gauge;

fn main() {}
