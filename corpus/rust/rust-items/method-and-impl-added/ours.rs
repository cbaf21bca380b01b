impl Feed for Gauge {
    fn poll(&mut self) -> Line {
        self.tcp.line()
    }

    fn reset(&mut self) {
        self.tcp.clear();
    }
}
