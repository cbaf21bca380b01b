fn latest(feed: &Feed, port: &str) -> Row {
    let row = match feed.fetch(port) {
        Some(row) => row,
        None => Row::missing(),
    };
    row
}
