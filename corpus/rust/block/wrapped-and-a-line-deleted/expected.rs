fn poll(feed: &Feed) {
    feed.open();
    if feed.ready() {
        show(reading, metric(units));
    }
    feed.close();
}
