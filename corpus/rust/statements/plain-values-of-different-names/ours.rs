fn draw(rows: &Rows) {
    let title = "Tides";
    let unit: &str = "m";
    show(rows, title);
}
