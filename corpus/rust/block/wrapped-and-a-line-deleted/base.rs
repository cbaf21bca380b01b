fn poll(feed: &Feed) {
    feed.open();
    let reading;
    show(reading, units);
    feed.close();
}
