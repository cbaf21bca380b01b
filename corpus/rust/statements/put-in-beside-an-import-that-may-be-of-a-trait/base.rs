fn publish(out: &mut Board, rows: &[Row]) {
    use std::io::Write;
    for row in rows {
        draw(out, row);
    }
}
