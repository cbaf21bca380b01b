fn load(path: &Path) -> Result<Tides, Error> {
    let text = try!(read(path));
    let rows = try!(strict::parse(&text, Unit::Metre));
    Ok(Tides::new(rows))
}
