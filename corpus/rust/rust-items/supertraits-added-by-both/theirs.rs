trait Gauge: Send + Sync + Display {
    fn level(&self) -> f64;
}
