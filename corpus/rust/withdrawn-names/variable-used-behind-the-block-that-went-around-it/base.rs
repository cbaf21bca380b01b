fn low(station: u32) -> f64 {
    let levels = fetch(station);
    draw(station);
    0.0
}

fn high(station: u32) -> f64 {
    fetch(station).max()
}
