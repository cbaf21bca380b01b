#[repr(C, packed)]
#[derive(Copy, Clone, Debug)]
pub union Tide {
}
#[derive(Copy, Clone)]
pub union Level {
pub high: Metres,
pub low: Metres,
}
#[cfg(feature = "harbour")]
#[derive(Hash, Clone)]
pub union Level {
pub high: Metres,
pub low: Metres,
}
