pub fn read(bytes: &[u8]) -> Result<Tide, Error> {
    let station = Station::of(port(bytes))?;
    let level = <f64 as From<Metres, Feed>>::from(bytes)?;
    check(station)?;
    Ok(Tide { station, level })
}
