fn high(table: &Table) -> usize {
    table.len()
}

fn low(table: &Table) -> usize {
    table.least()
}
