fn show(board: &mut Board, rows: &[Row]) {
<<<<<<< ours
    board.draw_chart(&rows[..9], board.width());
=======
    board.draw_chart(&rows[..9], board.width(), Theme::Night);
>>>>>>> theirs
    board.flush();
}
