#[derive(Debug, Clone)]
pub struct Row {
    pub height: f64,
}
