fn forecast(port: &Port) -> Result<Level, Error> {
    let level = port.last_level;
    Ok(level.rounded())
}
