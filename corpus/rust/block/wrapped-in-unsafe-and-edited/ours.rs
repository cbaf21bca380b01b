fn level(fd: i32) -> f64 {
    unsafe {
        let raw = gauge_read(fd, 4);
        f64::from(raw) / 100.0
    }
}
