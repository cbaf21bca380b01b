fn high(rows: &[f64]) -> f64 {
    rows.iter().copied().fold(f64::MIN, f64::max)
}

fn mean(rows: &[f64]) -> f64 {
    rows.iter().sum::<f64>() / rows.len() as f64
}

fn low(rows: &[f64]) -> f64 {
    rows.iter().copied().fold(f64::MAX, f64::min)
}

fn spread(rows: &[f64]) -> f64 {
    high(rows) - low(rows)
}
