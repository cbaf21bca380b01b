#[inline]
fn drift(board: u32) -> u32 {
    board - 3
}

#[must_use]
#[inline]
fn summary(rows: &Rows) -> u32 {
    total(list(rows), 3, Unit::Metre)
}
