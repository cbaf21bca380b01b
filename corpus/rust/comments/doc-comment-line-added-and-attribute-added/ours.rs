/// Height above the datum.
///
/// Negative below it.
pub fn height(row: &Row) -> f64 {
    row.level
}
