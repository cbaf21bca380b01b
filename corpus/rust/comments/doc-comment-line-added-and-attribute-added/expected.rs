/// Height above the datum.
///
/// Negative below it.
#[inline]
pub fn height(row: &Reading) -> f64 {
    row.level
}
