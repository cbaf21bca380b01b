async fn refresh(gauge: &Gauge) {
    let level = gauge.read().await;
    store(level);

    let chart = draw(level);
    publish(&chart);

    log("refreshed");
}
