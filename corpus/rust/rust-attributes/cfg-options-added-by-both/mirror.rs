#[cfg(any(unix, test, target_os = "wasi", feature = "harbour"))]
pub mod gauge_port;
