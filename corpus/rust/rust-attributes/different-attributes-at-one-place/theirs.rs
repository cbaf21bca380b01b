#[derive(Debug)]
#[non_exhaustive]
pub struct Row {
    pub height: f64,
}
