fn draw(rows: &Rows) {
    let title = "Tides";
    let mut station = &rows.station;
    let unit: &str = "m";
    show(rows, title);
}
