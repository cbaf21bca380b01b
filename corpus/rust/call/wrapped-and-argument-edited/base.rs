fn show(board: &mut Board, rows: &[Row]) {
    board.draw_chart(rows, board.width(), Theme::Day);
    board.flush();
}
