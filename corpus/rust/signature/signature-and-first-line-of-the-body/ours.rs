impl Feed {
    fn fetch(&mut self, station: &str) -> Tides {
        let url = self.address(station);
        self.get(&url)
    }
}
