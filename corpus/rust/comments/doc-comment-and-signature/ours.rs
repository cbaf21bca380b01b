/// Height above the chart datum, in metres.
pub fn height(row: &Row) -> f64 {
    row.level
}
