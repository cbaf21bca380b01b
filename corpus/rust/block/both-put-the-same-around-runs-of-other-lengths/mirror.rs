async fn draw(gauge: Gauge, rows: Rows) {
    log("drawn");
    if ready {
        match gauge {
            Tide::Low => level.await,
            Tide::High => level,
        }
<<<<<<< ours
        publish(rows);
        4;
    }
    rows;
=======
        4;
        rows;
    }
>>>>>>> theirs
    done();
}
