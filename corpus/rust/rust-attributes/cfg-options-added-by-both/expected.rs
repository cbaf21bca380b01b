#[cfg(any(unix, test, feature = "harbour", target_os = "wasi"))]
pub mod gauge_port;
