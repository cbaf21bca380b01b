#[derive(Debug)]
pub struct Reading {
    pub level: f64,
}
