fn show(gauge: &Gauge) {
    if gauge.wet && gauge.open {
        let level = gauge.level();
        draw(level);
    }
    log(level);
}
