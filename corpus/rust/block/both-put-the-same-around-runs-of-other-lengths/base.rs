async fn draw(gauge: Gauge, rows: Rows) {
    log("drawn");
    match gauge {
        Tide::Low => level,
        Tide::High => level,
    }
    4;
    rows;
    done();
}
