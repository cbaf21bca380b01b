pub struct Port;

#[derive(Debug, Eq, Clone)]
pub struct Row {
    pub height: f64,
}
