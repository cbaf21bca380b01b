mod board;
mod feed;

fn main() {}
