trait Gauge: Send + Sync + Clone + Display {
    fn level(&self) -> f64;
}
