fn parse(line: &str) -> Option<Row> {
    Some(Row::new(line.trim(), Unit::Metres))
}
