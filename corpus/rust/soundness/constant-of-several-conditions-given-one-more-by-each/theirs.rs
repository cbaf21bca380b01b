#[cfg(feature = "fathoms")]
pub const STEP: u32 = 1; // fathoms
#[cfg(feature = "metres")]
pub const STEP: u32 = 10; // centimetres
#[cfg(feature = "feet")]
pub const STEP: u32 = 3; // tenths of a foot
pub struct Gauge {
}
