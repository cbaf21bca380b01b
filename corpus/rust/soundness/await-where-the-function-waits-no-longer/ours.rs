fn refresh(gauge: &Gauge) {
    let level = gauge.read();
    store(level);

    let chart = draw(level);
    publish(&chart);

    log("refreshed");
}
