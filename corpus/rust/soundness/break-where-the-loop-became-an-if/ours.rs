fn refresh(gauge: &Gauge) {
    if gauge.ready() {
        let level = gauge.read();
        store(level);

        let chart = draw(level);
        publish(&chart);

        log("refreshed");
    }
}
