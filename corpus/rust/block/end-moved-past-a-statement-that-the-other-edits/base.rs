fn show(gauge: &Gauge) {
    if gauge.wet {
        let level = gauge.level();
        draw(level);
        log(level);
    }
}
