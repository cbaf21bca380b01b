/// One gauge.
#[derive(Debug, Clone, PartialEq)]
pub struct Gauge {
    pub level: i64,
}
