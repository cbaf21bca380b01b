#[derive(Debug, Copy, Clone)]
pub struct Row {
    pub height: f64,
}
