fn draw(day: Day) -> Result<Shape> {
<<<<<<< ours
    let shape = station.level(day, self.span)?;
=======
    let shape = station.level(day).within(self.span)?;
>>>>>>> theirs
    Ok(shape)
}
