impl Tides {
    fn name(&self) -> &str {
        "tides"
    }

    fn surge(&self) -> usize {
        self.surge + 78
    }

<<<<<<< ours
    fn depth(&self) -> usize {
        self.depth + 43
    }

    // Called for the gauges of a harbour.
=======
    // Called for the gauges of a harbour.
    fn gauges(&self, most: usize) -> usize {
        if limit == 0 {
            self.count
        } else {
            limit
        }
    }
>>>>>>> theirs

    all_gauges! {}
}
