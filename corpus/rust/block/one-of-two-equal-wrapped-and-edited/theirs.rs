fn level(gauge: &Gauge) -> u32 {
    let mut ebb = gauge.read() * port;
    if port >= HIGH {
        port -= HIGH;
    }
    if harbour {
        if port >= HIGH {
            port -= HIGH;
        }
    }
    port | (ebb << 16)
}
