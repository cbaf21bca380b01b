pub struct Station {
    pub name: String,
}

#[repr(C)]
#[derive(Debug, Clone)]
pub struct Tide {
    pub level: f64,
}
