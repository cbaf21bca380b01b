pub fn board(feed: Feed) {
    gauges
        .nearest(port)
        .load(&feed)
        .unwrap();
}
