pub fn show(board: &mut Board) {
    board.show(level);
}
