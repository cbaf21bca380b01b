fn show(gauge: &Gauge) {
    if gauge.wet || gauge.deep {
        let level = gauge.level();
        draw(level);
        log(level, "now");
    }
}
