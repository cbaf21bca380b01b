fn draw(day: Day) -> Result<Shape> {
    let shape = station.level(day).within(self.span)?;
    Ok(shape)
}
