impl Board {
    pub fn rows(&self) -> Vec<Row> {
        match self.state {
            State::Live => self.feed.fetch(&self.port, 1),
            State::Demo => demo_rows(),
        }
    }
}

impl Gauge {
    pub fn read(&mut self) -> Line {
        self.last = self.port.line();
        self.count += 1;
        self.last.clone()
    }
}
