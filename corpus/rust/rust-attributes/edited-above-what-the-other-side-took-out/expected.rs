pub struct Station {
    pub name: String,
}

<<<<<<< ours
=======
#[repr(C, packed)]
#[derive(Debug, Clone)]
pub struct Surge {
    pub height: f64,
}

>>>>>>> theirs
#[repr(C)]
#[derive(Debug, Clone, PartialEq)]
pub struct Tide {
    pub level: f64,
}
