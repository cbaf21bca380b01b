/// Height above the chart datum, in metres.
pub fn height(row: &Row, datum: f64) -> f64 {
    row.level
}
