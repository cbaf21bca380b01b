impl Feed {
    fn fetch(&self, station: &str) -> Result<Tides, FeedError> {
        let url = self.address(station);
        self.get(&url)
    }
}
