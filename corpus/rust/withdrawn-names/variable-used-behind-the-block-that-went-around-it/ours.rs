fn high(station: u32) -> f64 {
    fetch(station).max()
}

fn low(station: u32) -> f64 {
    let levels = fetch(station);
    draw(station);
    levels.min()
}
