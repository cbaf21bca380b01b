fn show(board: &mut Board, rows: &[Row]) {
    board.draw_chart(rows, board.width(), theme);
    board.flush();
}
