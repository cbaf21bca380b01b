fn store(path: &Path) -> Result<Board, Error> {
    let mut file = File::create(path)?;
    let tides = Board::default().all()?;
    file.write_all(tides.as_bytes())?;
    Ok(Board::new())
}
