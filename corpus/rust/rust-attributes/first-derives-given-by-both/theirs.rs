/// One gauge.
#[derive(Clone, PartialEq)]
pub struct Gauge {
    pub level: i64,
}
