/// Height above the datum.
pub fn height(row: &Row) -> f64 {
    row.level
}
