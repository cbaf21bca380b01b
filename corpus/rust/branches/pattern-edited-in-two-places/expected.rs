fn next(feed: &Feed) -> Option<Tide> {
    if let Reading::Level(level, moment) = feed.last() {
        return Some(tide(height, time));
    }
    None
}
