/// Height above the datum.
#[inline]
pub fn height(row: &Reading) -> f64 {
    row.level
}
