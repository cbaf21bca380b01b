impl Board {
    fn fetch(&self, station: u32) -> f64 {
        self.store.get(station)
    }

    fn show(&mut self, station: u32) {
        self.clear();
        let level = self.fetch(station);
        self.add(level);
    }
}
