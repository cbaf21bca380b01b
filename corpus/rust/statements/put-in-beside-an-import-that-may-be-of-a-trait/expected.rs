fn publish(out: &mut Board, rows: &[Row]) {
<<<<<<< ours
=======
    use std::io::Write;
    out.flush();
>>>>>>> theirs
    for row in rows {
        draw(out, row);
    }
}
