fn next(feed: &Feed) {
    if let Some(tide, level) = feed.last() {
        draw(tide);
    }
}
