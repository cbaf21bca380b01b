#[derive(Debug)]
#[repr(C)]
#[non_exhaustive]
pub struct Row {
    pub height: f64,
}
