impl Feed for Gauge {
    fn poll(&mut self) -> Line {
        self.tcp.line().trim()
    }

    fn reset(&mut self) {
        self.tcp.clear();
    }
}

impl Clock for Gauge {
    fn now(&self) -> Time {
        self.port.time()
    }
}
