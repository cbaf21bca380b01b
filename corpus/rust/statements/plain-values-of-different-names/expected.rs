fn draw(rows: &Rows) {
    let title = "Tides";
    let unit: &str = "m";
    let mut station = &rows.station;
    show(rows, title);
}
