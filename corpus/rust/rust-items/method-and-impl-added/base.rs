impl Feed for Gauge {
    fn poll(&mut self) -> Line {
        self.port.line()
    }
}
