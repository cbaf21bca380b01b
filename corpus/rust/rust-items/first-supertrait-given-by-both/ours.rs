pub trait Gauge: Send {
    fn level(&self) -> f64;
}
