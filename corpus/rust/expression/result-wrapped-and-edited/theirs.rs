fn parse(line: &str) -> Row {
    Row::new(line.trim(), Unit::Metres)
}
