fn level(gauge: &Gauge) -> u32 {
<<<<<<< ours
    let mut surge = gauge.read() * port;
=======
    let mut ebb = gauge.read() * port;
>>>>>>> theirs
    if port >= HIGH {
        port -= HIGH;
    }
    if harbour {
        if port >= SPRING {
            port -= HIGH;
        }
    }
<<<<<<< ours
    port | (surge << 16)
=======
    port | (ebb << 16)
>>>>>>> theirs
}
