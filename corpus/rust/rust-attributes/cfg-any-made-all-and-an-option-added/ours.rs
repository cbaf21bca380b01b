#[cfg(all(unix, test))]
pub mod gauge_port;
