pub fn read(bytes: &[u8]) -> Result<Tide, Error> {
    let station = Station::of(port(bytes), Unit::Metres)?;
    let level = <f64 as From<Metres, Feed>>::from(bytes.skip(8))?;
    check(station, level)?;
    Ok(Tide { station, level })
}
