fn level(station: &Station) -> f64 {
    let level = station.height().unwrap_or_default();
    level
}
