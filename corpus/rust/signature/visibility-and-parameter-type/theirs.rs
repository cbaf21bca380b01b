impl Feed {
    fn fetch(&self, station: &Station) -> Tides {
        let url = self.address(&station.code);
        self.get(&url)
    }
}
