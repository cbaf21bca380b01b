impl Feed for Gauge {
    fn poll(&mut self) -> Option<Line> {
        self.port.line().ok()
    }
}
