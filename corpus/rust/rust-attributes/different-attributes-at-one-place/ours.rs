#[derive(Debug)]
#[repr(C)]
pub struct Row {
    pub height: f64,
}
