fn level(gauge: &Gauge) -> u32 {
    let mut tide = gauge.read() * port;
    if port >= HIGH {
        port -= HIGH;
    }
    if port >= HIGH {
        port -= HIGH;
    }
    port | (tide << 16)
}
