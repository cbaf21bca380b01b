impl Feed {
    fn fetch(&self, station: &str) -> Tides {
        let url = self.address(station);
        self.get(&url)
    }
}
