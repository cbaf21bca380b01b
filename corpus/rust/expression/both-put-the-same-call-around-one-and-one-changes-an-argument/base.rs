fn tide(rows: &Rows) {
    let level = read(rows, 1);
    show(rows);
}
