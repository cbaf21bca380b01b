trait Gauge: Send + Sync + Display + Clone {
    fn level(&self) -> f64;
}
