#[derive(Clone, Debug)]
pub struct Gauge {
    pub level: i64,
    pub name: String,
}

pub fn read(gauge: &Gauge) -> i64 {
    gauge.level
}
