#[inline]
fn drift(board: u32) -> u32 {
    board - 3
}

#[inline]
fn summary(rows: &Rows) -> u32 {
    total(rows, 3, Unit::Metre)
}
