pub fn level(port: &str) -> f64 {
    read(port) - datum(port)
}

pub fn board() {}
