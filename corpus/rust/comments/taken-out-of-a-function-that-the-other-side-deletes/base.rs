pub fn level(port: &str) -> f64 {
    // The datum is the chart's.
    read(port) - datum(port)
}

pub fn board() {}
