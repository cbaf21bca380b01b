<<<<<<< ours
=======
pub struct Gauge {
    depth: f64,
    port: u32,
}

>>>>>>> theirs
impl Gauge {
    fn low(&self) -> f64 {
        self.depth
    }

    fn high(&self) -> f64 {
        self.level + 2.0
    }
}

pub struct Gauge {
    level: f64,
    port: u32,
}
