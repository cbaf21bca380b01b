pub fn read(bytes: &[u8]) -> Result<Tide, Error> {
    let station = try!(Station::of(port(bytes)));
    let level = try!(<f64 as From<Metres, Feed>>::from(bytes));
    try!(check(station));
    Ok(Tide { station, level })
}
