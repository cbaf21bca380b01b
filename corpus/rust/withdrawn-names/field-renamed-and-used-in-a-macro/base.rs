struct Gauge {
    level: u32,
}

impl Gauge {
    fn low(&self) -> u32 {
        draw(1);
        self.level
    }
}
