struct Gauge {
    station: u32,
}

pub(crate) fn low(station: u32, unit: u32) -> u32 {
    fetch(station)
}

fn show() {
    draw(low(3, 7));
}
