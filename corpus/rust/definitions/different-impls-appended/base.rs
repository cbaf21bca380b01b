pub struct Gauge {
    port: Port,
}

impl Gauge {
    pub fn read(&mut self) -> Line {
        self.port.line()
    }
}
