pub fn board(mut feed: Feed) {
    gauges
        .nearest(port)
        .load(&mut feed)
        .unwrap();
}
