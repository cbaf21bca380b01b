impl<'a> Gauge<'a> {
    pub(crate) fn new(row: &'a Row) -> Self {
        Gauge { row, low: 0 }
    }

    fn from_row(row: &'a Row) -> Self {
        Gauge { row, low: 2 }
    }
}
