fn total(port: &Port) -> f64 {
    astronomic(port, 7) + surge(port, 7)
}
