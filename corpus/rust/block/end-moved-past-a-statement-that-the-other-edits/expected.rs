fn show(gauge: &Gauge) {
<<<<<<< ours
    if gauge.wet && gauge.open {
=======
    if gauge.wet || gauge.deep {
>>>>>>> theirs
        let level = gauge.level();
        draw(level);
    }
    log(level, "now");
}
