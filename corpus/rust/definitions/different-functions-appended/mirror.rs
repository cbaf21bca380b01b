pub fn high(rows: &[Row]) -> f64 {
    rows.iter().map(|row| row.height).fold(f64::MIN, f64::max)
}

/// Zero where there is no row.
pub fn mean(rows: &[Row]) -> f64 {
    let total: f64 = rows.iter().map(|row| row.height).sum();
    total / rows.len().max(1) as f64
}

pub fn low(rows: &[Row]) -> f64 {
    rows.iter().map(|row| row.height).fold(f64::MAX, f64::min)
}
