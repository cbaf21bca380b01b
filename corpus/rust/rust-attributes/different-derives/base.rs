#[derive(Debug)]
pub struct Row {
    pub height: f64,
}
