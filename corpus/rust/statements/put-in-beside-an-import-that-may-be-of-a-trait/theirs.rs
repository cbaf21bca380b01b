fn publish(out: &mut Board, rows: &[Row]) {
    use std::io::Write;
    out.flush();
    for row in rows {
        draw(out, row);
    }
}
