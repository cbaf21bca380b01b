#[derive(Debug, Copy, Clone, Default)]
pub struct Row {
    pub height: f64,
}
