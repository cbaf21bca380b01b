impl Gauge {
    fn low(&self) -> f64 {
        self.level
    }

    fn high(&self) -> f64 {
        self.level + 2.0
    }
}

pub struct Gauge {
    level: f64,
    port: u32,
}
