fn low(station: u32) -> u32 {
    let half = station / 2;
    half.min(9)
}

fn show(station: u32) {
    draw(station);
}
