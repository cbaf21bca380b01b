impl Feed for Gauge {
    fn poll(&mut self) -> Line {
        self.port.line().trim()
    }
}

impl Clock for Gauge {
    fn now(&self) -> Time {
        self.port.time()
    }
}
