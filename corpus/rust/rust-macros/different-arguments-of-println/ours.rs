fn show(row: &Row) {
    println!("{} {}", row.time.trim(), row.height);
}
