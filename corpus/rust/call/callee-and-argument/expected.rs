fn show(board: &mut Board, rows: &[Row]) {
    board.canvas.chart(rows, board.width(), theme);
    board.flush();
}
