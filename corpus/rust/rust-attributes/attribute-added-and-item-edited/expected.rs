#[derive(Debug)]
#[must_use]
pub struct Reading {
    pub level: f64,
}
