pub trait Gauge {
    fn level(&self) -> f64;
}
