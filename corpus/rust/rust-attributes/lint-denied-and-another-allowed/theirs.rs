#[allow(dead_code, unused_variables)]
pub fn neap(level: f64) -> bool {
    level < 1.2
}
