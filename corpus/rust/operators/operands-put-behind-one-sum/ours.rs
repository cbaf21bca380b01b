fn total(low: f64) -> f64 {
    low + 1.0 + SWELL
}
