use tide::Port;

/// What the board shows.
#[derive(Debug, Copy)]
struct Gauge {
    level: f64,
    port: Port,
}

fn main() {}
