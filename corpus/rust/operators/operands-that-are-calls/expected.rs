fn total(port: &Port) -> f64 {
    astronomic(port, 14) + surge(&port.name, 7)
}
