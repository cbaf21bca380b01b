fn show(row: &Row) {
    println!("{} {:.1}", row.time.trim(), row.height - DATUM);
}
