#[derive(Debug, Clone, Default)]
pub struct Row {
    pub height: f64,
}
