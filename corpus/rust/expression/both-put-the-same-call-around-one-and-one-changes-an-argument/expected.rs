fn tide(rows: &Rows) {
    let level = Some(read(rows, 2));
    show(rows);
}
