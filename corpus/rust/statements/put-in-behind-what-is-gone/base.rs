mod gauges;
pub use gauges::Gauge;

///
pub mod tides;
pub use tides::Tide;
