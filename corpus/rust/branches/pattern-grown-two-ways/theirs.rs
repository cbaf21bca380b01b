fn next(feed: &Feed) {
    if let Some(tide, moment) = feed.last() {
        draw(tide);
    }
}
