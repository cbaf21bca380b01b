fn poll(feed: &Feed) {
    feed.open();
    show(reading, units);
    feed.close();
}
