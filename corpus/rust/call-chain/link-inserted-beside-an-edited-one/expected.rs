fn highs(rows: &[Row]) -> Vec<f64> {
    rows.iter()
        .filter(|row| row.is_high())
        .skip(1)
        .map(|row| row.height)
        .collect()
}
