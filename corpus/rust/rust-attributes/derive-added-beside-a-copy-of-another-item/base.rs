#[repr(C)]
#[derive(Copy, Clone)]
pub union Tide {
}
#[derive(Copy, Clone)]
pub union Level {
pub high: Metres,
pub low: Metres,
}
