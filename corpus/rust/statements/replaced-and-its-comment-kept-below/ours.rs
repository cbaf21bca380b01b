impl Tides {
    fn name(&self) -> &str {
        "tides"
    }

    fn depth(&self) -> usize {
        self.depth + 43
    }

    // Called for the gauges of a harbour.

    all_gauges! {}
}
