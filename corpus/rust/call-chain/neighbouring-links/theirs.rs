fn highs(rows: &[Row]) -> Vec<f64> {
    rows.iter()
        .filter(|row| row.kind == Kind::High)
        .map(|row| row.height - datum)
        .collect()
}
