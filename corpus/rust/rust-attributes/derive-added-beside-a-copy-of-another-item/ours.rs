#[repr(C)]
#[derive(Copy, Clone, Debug)]
pub union Tide {
}
#[derive(Copy, Clone)]
pub union Level {
pub high: Metres,
pub low: Metres,
}
