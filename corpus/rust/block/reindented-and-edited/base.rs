fn mean(rows: &[f64]) -> f64 {
  let mut total = 0.0;
  for row in rows {
    total += row;
  }
  total / rows.len() as f64
}
