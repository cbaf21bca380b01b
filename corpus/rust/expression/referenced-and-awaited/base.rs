fn latest(feed: &Feed, port: &str) -> Row {
    let row = feed.fetch(port);
    row
}
