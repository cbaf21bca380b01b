use tide::Port;

<<<<<<< ours
=======
/// What the board shows.
#[derive(Debug, Copy)]
struct Gauge {
    level: f64,
    port: Port,
}

>>>>>>> theirs
/// What the board shows.
#[derive(Debug)]
enum Chart {
    Harbour(Port),
    Coast,
}

fn main() {}
