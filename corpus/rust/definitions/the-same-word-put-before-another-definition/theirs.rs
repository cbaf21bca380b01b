impl<'a> Gauge<'a> {
    pub(crate) fn from_row(row: &'a Row) -> Self {
        Gauge { row, low: 3 }
    }
}
