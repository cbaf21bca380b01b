#[cfg(any(unix, test, target_os = "wasi"))]
pub mod gauge_port;
