impl Feed {
    fn fetch(&self, station: &str, days: u32) -> Result<Tides, FeedError> {
        let url = self.address(station);
        self.get(&url)
    }
}
