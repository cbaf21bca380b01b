impl Board {
    fn fetch(&self, station: u32) -> f64 {
        self.store.get(station)
    }

    fn show(&mut self, station: u32) {
        self.clear();
        let level = self.fetch(station);
        let harbour = self.fetch(self.harbour);
        self.add(level.max(harbour));
    }
}
