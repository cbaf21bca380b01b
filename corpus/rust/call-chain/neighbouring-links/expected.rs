fn highs(rows: &[Row]) -> Vec<f64> {
    rows.iter()
        .filter(|row| row.is_high())
        .map(|row| row.height - datum)
        .collect()
}
