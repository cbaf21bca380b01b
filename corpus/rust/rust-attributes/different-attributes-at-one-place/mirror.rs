#[derive(Debug)]
#[non_exhaustive]
#[repr(C)]
pub struct Row {
    pub height: f64,
}
