/// One gauge.
pub struct Gauge {
    pub level: i64,
}
