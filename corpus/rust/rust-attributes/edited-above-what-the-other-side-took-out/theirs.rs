pub struct Station {
    pub name: String,
}

#[repr(C, packed)]
#[derive(Debug, Clone)]
pub struct Surge {
    pub height: f64,
}

#[repr(C)]
#[derive(Debug, Clone, PartialEq)]
pub struct Tide {
    pub level: f64,
}
