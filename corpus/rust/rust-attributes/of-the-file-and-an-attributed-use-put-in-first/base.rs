use tide::Level;

fn low(level: &Level) -> f32 {
    level.low
}
