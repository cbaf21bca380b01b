fn forecast(port: &Port) -> Result<Level, Error> {
    let level = <f64 as Read<tide_units::Metres, Gauge>>::read(port)?;
    Ok(level.rounded())
}
