fn show(board: &mut Board, rows: &[Row]) {
    board.canvas.chart(rows, board.width(), Theme::Day);
    board.flush();
}
