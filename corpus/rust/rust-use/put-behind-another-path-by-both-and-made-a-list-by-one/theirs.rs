use crate::tide::Gauge;

pub fn level(gauge: &Gauge) -> f64 {
    gauge.level()
}
