fn level(gauge: &Gauge) -> u32 {
<<<<<<< ours
    let mut surge = gauge.read() * port;
    if port >= HIGH {
        port -= HIGH;
    }
    if port >= SPRING {
        port -= HIGH;
    }
    port | (surge << 16)
=======
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
>>>>>>> theirs
}
