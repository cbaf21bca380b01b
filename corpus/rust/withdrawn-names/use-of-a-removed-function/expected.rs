fn high(table: &Table) -> u64 {
    table.len()
}

fn low(table: &Table) -> usize {
    table.least()
}
<<<<<<< ours
=======

fn first(path: &str) -> Option<String> {
    rows(path).into_iter().next()
}
>>>>>>> theirs
