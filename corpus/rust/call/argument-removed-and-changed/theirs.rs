fn show(board: &mut Board, rows: &[Row]) {
    board.draw_chart(&rows[..9], board.width(), Theme::Night);
    board.flush();
}
