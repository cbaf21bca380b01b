<<<<<<< ours
fn refresh(gauge: &Gauge) {
    let level = gauge.read();
    store(level);

    let chart = draw(level);
    publish(&chart);

=======
async fn refresh(gauge: &Gauge) {
    let level = gauge.read().await;
    store(level);

    let chart = draw(level);
    publish(&chart);

    board.show(chart).await;
>>>>>>> theirs
    log("refreshed");
}
