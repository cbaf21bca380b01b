//! Moon phases for the chart.

use crate::model::Day;

const CYCLE: f64 = 29.530_588;

pub fn phase(day: Day) -> f64 {
    (day.number() % CYCLE) / CYCLE
}

pub fn illumination(day: Day) -> f64 {
    (1.0 - (TAU * phase(day)).cos()) / 2.0
}
