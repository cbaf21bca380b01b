pub trait Gauge: Send + std::fmt::Debug {
    fn level(&self) -> f64;
}
