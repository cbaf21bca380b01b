fn show(row: &Row) {
    println!("{} {:.1}", row.time, row.height - DATUM);
}
