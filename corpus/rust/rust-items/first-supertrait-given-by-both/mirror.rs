pub trait Gauge: std::fmt::Debug + Send {
    fn level(&self) -> f64;
}
