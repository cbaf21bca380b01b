mod gauges;
pub use gauges::Gauge;

const LIMIT: u32 = 31;
///
pub use tides::Tide;
