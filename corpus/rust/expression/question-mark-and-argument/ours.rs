fn latest(feed: &Feed, port: &str) -> Result<Row> {
    let row = feed.fetch(port)?;
    Ok(row)
}
