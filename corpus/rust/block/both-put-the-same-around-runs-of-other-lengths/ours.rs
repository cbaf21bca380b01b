async fn draw(gauge: Gauge, rows: Rows) {
    log("drawn");
    if ready {
        match gauge {
            Tide::Low => level.await,
            Tide::High => level,
        }
        4;
        rows;
    }
    done();
}
