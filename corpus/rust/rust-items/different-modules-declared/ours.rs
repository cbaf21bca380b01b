mod board;
mod feed;
mod gauge;

fn main() {}
