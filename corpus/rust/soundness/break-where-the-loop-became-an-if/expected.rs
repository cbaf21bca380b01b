fn refresh(gauge: &Gauge) {
<<<<<<< ours
    if gauge.ready() {
=======
    while gauge.ready() {
>>>>>>> theirs
        let level = gauge.read();
        store(level);

        let chart = draw(level);
        publish(&chart);

<<<<<<< ours
=======
        if chart.is_empty() {
            break;
        }
>>>>>>> theirs
        log("refreshed");
    }
}
