pub fn read(bytes: &[u8]) -> Result<f64, Error> {
    let level = level(bytes)?;
    Ok(level)
}
