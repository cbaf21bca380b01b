fn depth(row: &Row) -> f64 {
    row.depth
}

/// Height above the datum.

pub fn height(reading: &Row) -> f64 {
    reading.level
}
