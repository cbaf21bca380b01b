mod gauges;
pub use gauges::Gauge;

///
pub use tides::Tide;
