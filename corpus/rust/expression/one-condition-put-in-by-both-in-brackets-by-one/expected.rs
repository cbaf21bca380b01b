fn highest(readings: &[f64]) -> f64 {
    if (readings.is_empty()) {
        return f64::NAN;
    }
    largest(readings)
}
