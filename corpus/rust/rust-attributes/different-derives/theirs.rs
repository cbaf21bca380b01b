#[derive(Debug, PartialEq)]
pub struct Row {
    pub height: f64,
}
