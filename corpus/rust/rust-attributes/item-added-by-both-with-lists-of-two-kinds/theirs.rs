pub struct Port;

#[tide_columns(Debug, Copy, Clone)]
pub struct Row {
    pub height: f64,
}
