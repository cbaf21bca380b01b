impl Feed {
<<<<<<< ours
    fn fetch(&self, station: Station) -> Result<Tides, FeedError> {
=======
    fn fetch(&self, station: &Station) -> Result<Tides, FeedError> {
>>>>>>> theirs
        let url = self.address(station);
        self.get(&url)
    }
}
