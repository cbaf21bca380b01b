pub fn board(port: &str) -> Result<Board, Error> {
    let level = read(port)?;
    Ok(Board::new(level))
}
