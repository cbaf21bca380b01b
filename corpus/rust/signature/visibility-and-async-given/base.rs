impl Board {
    fn refresh(&mut self, level: f64) {
        self.level = read(level);
    }
}
