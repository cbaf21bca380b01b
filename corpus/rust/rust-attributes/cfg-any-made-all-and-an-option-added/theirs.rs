#[cfg(any(unix, test, windows))]
pub mod gauge_port;
