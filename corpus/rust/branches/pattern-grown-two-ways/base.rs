fn next(feed: &Feed) {
    if let Some(tide) = feed.last() {
        draw(tide);
    }
}
