fn forecast(port: &Port) -> Result<Level, Error> {
<<<<<<< ours
    let level = try!(read(port.name()));
=======
    let level = port.last_level;
>>>>>>> theirs
    Ok(level.rounded())
}
