fn draw(day: Day) -> Result<Shape> {
    let shape = station.level(day, self.span)?;
    Ok(shape)
}
