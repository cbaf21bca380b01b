fn forecast(port: &Port) -> Result<Level, Error> {
    let level = read(port.name())?;
    Ok(level.rounded())
}
