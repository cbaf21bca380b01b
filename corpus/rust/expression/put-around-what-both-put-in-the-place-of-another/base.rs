fn level(station: &Station) -> f64 {
    let level = station.level;
    level
}
