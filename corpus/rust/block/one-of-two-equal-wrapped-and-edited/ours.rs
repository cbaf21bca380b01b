fn level(gauge: &Gauge) -> u32 {
    let mut surge = gauge.read() * port;
    if port >= HIGH {
        port -= HIGH;
    }
    if port >= SPRING {
        port -= HIGH;
    }
    port | (surge << 16)
}
