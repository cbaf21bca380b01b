fn draw(rows: &Rows) {
    let title = "Tides";
    show(rows, title);
}
