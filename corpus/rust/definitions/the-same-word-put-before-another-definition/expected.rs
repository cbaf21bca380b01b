impl<'a> Gauge<'a> {
    pub(crate) fn new(row: &'a Row) -> Self {
        Gauge { row, low: 0 }
    }

    pub(crate) fn from_row(row: &'a Row) -> Self {
<<<<<<< ours
        Gauge { row, low: 2 }
=======
        Gauge { row, low: 3 }
>>>>>>> theirs
    }
}
