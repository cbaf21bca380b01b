pub trait Gauge: std::fmt::Debug {
    fn level(&self) -> f64;
}
