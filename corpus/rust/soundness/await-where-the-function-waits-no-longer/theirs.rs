async fn refresh(gauge: &Gauge) {
    let level = gauge.read().await;
    store(level);

    let chart = draw(level);
    publish(&chart);

    board.show(chart).await;
    log("refreshed");
}
