fn forecast(port: &Port) -> Result<Level, Error> {
    let level = try!(read(port.name()));
    Ok(level.rounded())
}
