pub fn read(bytes: &[u8]) -> Result<Tide, Error> {
    let station = try!(Station::of(port(bytes), Unit::Metres));
    let level = try!(<f64 as From<Metres, Feed>>::from(bytes.skip(8)));
    try!(check(station, level));
    Ok(Tide { station, level })
}
