pub struct Gauge {
    level: f64,
    port: u32,
}

impl Gauge {
    fn low(&self) -> f64 {
        self.level
    }
}
