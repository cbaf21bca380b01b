pub fn level(reading: Option<Reading<'_>>, gauge: &Gauge<'_>) -> f64 {
    reading.level(gauge)
}
