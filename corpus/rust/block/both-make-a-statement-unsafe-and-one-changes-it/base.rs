fn tide(rows: &Rows) {
    publish(rows, 1);
    show(rows);
}
