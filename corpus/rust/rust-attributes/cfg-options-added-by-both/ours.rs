#[cfg(any(unix, test, feature = "harbour"))]
pub mod gauge_port;
