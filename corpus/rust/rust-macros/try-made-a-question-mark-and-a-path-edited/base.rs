fn forecast(port: &Port) -> Result<Level, Error> {
    let level = try!(<f64 as Read<units::Metres, Gauge>>::read(port));
    Ok(level.rounded())
}
