impl<'a> Gauge<'a> {
    fn from_row(row: &'a Row) -> Self {
        Gauge { row, low: 1 }
    }
}
