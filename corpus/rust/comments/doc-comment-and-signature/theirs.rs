/// Height above the datum.
pub fn height(row: &Row, datum: f64) -> f64 {
    row.level
}
