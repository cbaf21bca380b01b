fn refresh(gauge: &Gauge) {
    while gauge.ready() {
        let level = gauge.read();
        store(level);

        let chart = draw(level);
        publish(&chart);

        if chart.is_empty() {
            break;
        }
        log("refreshed");
    }
}
