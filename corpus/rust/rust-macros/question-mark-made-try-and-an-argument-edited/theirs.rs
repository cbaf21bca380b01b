fn forecast(port: &Port) -> Result<Level, Error> {
    let level = <Gauge as Source<Metres, Datum>>::read(port.code(), Tide::High)?;
    Ok(level.rounded())
}
