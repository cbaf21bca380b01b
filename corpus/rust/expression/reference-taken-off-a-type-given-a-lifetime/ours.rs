pub fn level(reading: Option<Reading>, gauge: &Gauge) -> f64 {
    reading.level(gauge)
}
