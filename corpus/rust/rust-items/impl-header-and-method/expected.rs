impl<P: Port> Feed for Gauge<P> {
    fn poll(&mut self) -> Option<Line> {
        self.port.line().ok()
    }
}
