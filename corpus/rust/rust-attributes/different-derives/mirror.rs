#[derive(Debug, PartialEq, Clone)]
pub struct Row {
    pub height: f64,
}
