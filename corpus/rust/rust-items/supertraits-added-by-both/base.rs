trait Gauge: Send + Sync {
    fn level(&self) -> f64;
}
