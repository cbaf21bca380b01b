//! Moon phases for the chart.

use crate::model::Day;

<<<<<<< ours
const CYCLE: f64 = 29.530_588;
=======
const CYCLE: f64 = 29.53;
>>>>>>> theirs

pub fn phase(day: Day) -> f64 {
    (day.number() % CYCLE) / CYCLE
}

pub fn illumination(day: Day) -> f64 {
    (1.0 - (TAU * phase(day)).cos()) / 2.0
}

pub fn is_spring(day: Day) -> bool {
    phase(day).min(1.0 - phase(day)) < 0.1
}
