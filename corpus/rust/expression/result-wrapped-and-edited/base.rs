fn parse(line: &str) -> Row {
    Row::new(line, Unit::Metres)
}
