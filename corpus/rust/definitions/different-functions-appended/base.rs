pub fn high(rows: &[Row]) -> f64 {
    rows.iter().map(|row| row.height).fold(f64::MIN, f64::max)
}
