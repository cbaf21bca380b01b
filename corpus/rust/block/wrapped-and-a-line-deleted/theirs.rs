fn poll(feed: &Feed) {
    feed.open();
    if feed.ready() {
        let reading;
        show(reading, metric(units));
    }
    feed.close();
}
