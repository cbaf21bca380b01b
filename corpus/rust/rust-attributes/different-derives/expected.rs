#[derive(Debug, Clone, PartialEq)]
pub struct Row {
    pub height: f64,
}
