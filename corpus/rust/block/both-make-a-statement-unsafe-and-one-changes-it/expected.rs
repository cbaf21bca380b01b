fn tide(rows: &Rows) {
    unsafe { publish(rows, 2); }
    show(rows);
}
