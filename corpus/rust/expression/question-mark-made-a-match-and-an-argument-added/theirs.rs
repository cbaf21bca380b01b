pub fn board(port: &str) -> Result<Board, Error> {
    let level = read(port, Unit::Metres)?;
    Ok(Board::new(level))
}
