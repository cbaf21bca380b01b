impl Feed {
    fn fetch(&self, station: &Station) -> Result<Tides, FeedError> {
        let url = self.address(station);
        self.get(&url)
    }
}
