fn tide(rows: &Rows) {
    unsafe { publish(rows, 1); }
    show(rows);
}
