fn render(row: &Row) -> String {
    let stamp = row.time.trim();
    let width = row.height.round() as usize;
    let bar = "#".repeat(width);
    let unit = row.unit.name();
    format!("{stamp} {bar} {unit}")
}

/// One reading a line.
fn parse(line: &str) -> Option<Row> {
    let (time, height) = line.split_once('\t')?;
    Row::new(time, height)
}

fn main() {
    println!("{}", render(&parse("06:12 4.8").unwrap()));
}
