fn highest(readings: &[f64]) -> f64 {
    largest(readings)
}
