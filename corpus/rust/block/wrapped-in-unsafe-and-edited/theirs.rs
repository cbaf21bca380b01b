fn level(fd: i32) -> f64 {
    let raw = gauge_read(fd, 8);
    f64::from(raw) / 100.0
}
