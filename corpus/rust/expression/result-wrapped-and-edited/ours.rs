fn parse(line: &str) -> Option<Row> {
    Some(Row::new(line, Unit::Metres))
}
