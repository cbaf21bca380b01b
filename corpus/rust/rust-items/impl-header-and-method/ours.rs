impl<P: Port> Feed for Gauge<P> {
    fn poll(&mut self) -> Line {
        self.port.line()
    }
}
