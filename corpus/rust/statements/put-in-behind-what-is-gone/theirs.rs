mod gauges;
pub use gauges::Gauge;

///
pub mod tides;
const LIMIT: u32 = 31;
pub use tides::Tide;
