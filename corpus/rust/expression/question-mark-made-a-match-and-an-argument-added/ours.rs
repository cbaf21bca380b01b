pub fn board(port: &str) -> Result<Board, Error> {
    let level = match read(port) {
        Ok(level) => level,
        Err(Error::Late) => return Ok(Board::empty()),
        Err(e) => return Err(e),
    };
    Ok(Board::new(level))
}
