/// One gauge.
#[derive(Debug, Clone)]
pub struct Gauge {
    pub level: i64,
}
