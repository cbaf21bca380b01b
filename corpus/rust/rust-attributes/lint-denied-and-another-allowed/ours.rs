#[deny(dead_code)]
pub fn neap(level: f64) -> bool {
    level < 1.2
}
