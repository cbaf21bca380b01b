#[cfg(any(unix, test))]
pub mod gauge_port;
