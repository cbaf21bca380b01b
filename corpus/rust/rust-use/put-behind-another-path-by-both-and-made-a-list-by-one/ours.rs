use crate::tide::{Gauge, Level};

pub fn level(gauge: &Gauge) -> Level {
    gauge.level()
}
