//! Moon phases for the chart.

use crate::model::Day;

const CYCLE: f64 = 29.53;

pub fn phase(day: Day) -> f64 {
    (day.number() % CYCLE) / CYCLE
}

pub fn is_spring(day: Day) -> bool {
    phase(day).min(1.0 - phase(day)) < 0.1
}
