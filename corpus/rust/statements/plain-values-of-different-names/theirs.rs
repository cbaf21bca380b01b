fn draw(rows: &Rows) {
    let title = "Tides";
    let mut station = &rows.station;
    show(rows, title);
}
