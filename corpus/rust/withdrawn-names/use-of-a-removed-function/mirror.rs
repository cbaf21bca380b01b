fn high(table: &Table) -> u64 {
    table.len()
}

<<<<<<< ours
fn first(path: &str) -> Option<String> {
    rows(path).into_iter().next()
}

=======
>>>>>>> theirs
fn low(table: &Table) -> usize {
    table.least()
}
