pub fn read(bytes: &[u8]) -> Result<f64, Error> {
<<<<<<< ours
    let level = level(bytes)?;
=======
    let level = try!(level(bytes) + datum);
>>>>>>> theirs
    Ok(level)
}
