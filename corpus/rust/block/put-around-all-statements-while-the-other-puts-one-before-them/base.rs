fn publish(board: &mut Board, level: f64) {
    board.show(level);
    board.journal.write(level);
}
