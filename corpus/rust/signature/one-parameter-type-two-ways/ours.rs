impl Feed {
    fn fetch(&self, station: Station) -> Tides {
        let url = self.address(station);
        self.get(&url)
    }
}
