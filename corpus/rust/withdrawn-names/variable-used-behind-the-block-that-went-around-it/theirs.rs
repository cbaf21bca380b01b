fn low(station: u32) -> f64 {
    if open(station) {
        let levels = fetch(station);
        draw(station);
    }
    0.0
}

fn high(station: u32) -> f64 {
    fetch(station).max()
}
