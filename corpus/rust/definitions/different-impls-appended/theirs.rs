pub struct Gauge {
    port: Port,
}

impl Gauge {
    pub fn read(&mut self) -> Line {
        self.port.line()
    }
}

impl From<Port> for Gauge {
    fn from(port: Port) -> Gauge {
        Gauge { port }
    }
}
