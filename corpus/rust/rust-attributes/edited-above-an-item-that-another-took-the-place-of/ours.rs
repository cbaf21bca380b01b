use tide::Port;

/// What the board shows.
#[derive(Debug)]
enum Chart {
    Harbour(Port),
    Coast,
}

fn main() {}
