#[cfg(feature = "quay")]
use quay::Quay;
use tide::Level;

fn low(level: &Level) -> f32 {
    level.low
}
