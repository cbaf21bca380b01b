trait Gauge: Send + Sync + Clone {
    fn level(&self) -> f64;
}
