fn publish(out: &mut Board, rows: &[Row]) {
    for row in rows {
        draw(out, row);
    }
}
