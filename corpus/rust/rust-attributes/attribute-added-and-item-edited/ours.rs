#[derive(Debug)]
#[must_use]
pub struct Row {
    pub height: f64,
}
