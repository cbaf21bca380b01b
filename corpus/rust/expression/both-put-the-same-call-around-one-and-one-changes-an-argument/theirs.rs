fn tide(rows: &Rows) {
    let level = Some(read(rows, 1));
    show(rows);
}
