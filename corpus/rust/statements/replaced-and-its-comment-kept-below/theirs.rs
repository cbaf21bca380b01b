impl Tides {
    fn name(&self) -> &str {
        "tides"
    }

    fn surge(&self) -> usize {
        self.surge + 78
    }

    // Called for the gauges of a harbour.
    fn gauges(&self, most: usize) -> usize {
        if limit == 0 {
            self.count
        } else {
            limit
        }
    }

    all_gauges! {}
}
