fn latest(feed: &Feed, port: &str) -> Result<Row> {
    let row = feed.fetch(port, Day::today())?;
    Ok(row)
}
