impl Feed {
    fn fetch(&mut self, station: &str) -> Tides {
        let url = self.address(station.trim());
        self.get(&url)
    }
}
