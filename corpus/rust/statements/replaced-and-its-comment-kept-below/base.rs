impl Tides {
    fn name(&self) -> &str {
        "tides"
    }

    // Called for the gauges of a harbour.
    fn gauges(&self, limit: usize) -> usize {
        if limit == 0 {
            self.count
        } else {
            limit
        }
    }

    all_gauges! {}
}
