fn show(row: &Row) {
    println!("{} {}", row.time, row.height);
}
