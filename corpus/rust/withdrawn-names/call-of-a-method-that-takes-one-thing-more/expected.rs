impl Board {
    fn fetch(&self, station: u32, datum: Datum) -> f64 {
        self.store.get(station, datum)
    }

    fn show(&mut self, station: u32) {
        self.clear();
        let level = self.fetch(station, self.datum);
<<<<<<< ours
        let harbour = self.fetch(self.harbour);
=======
>>>>>>> theirs
        self.put(level.max(harbour));
    }
}
