impl Feed {
    fn fetch(&self, station: &str, days: u32) -> Tides {
        let url = self.address(station);
        self.get(&url)
    }
}
