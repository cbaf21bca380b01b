fn publish(board: &mut Board, level: f64) {
    board.check(level);
    board.show(level);
    board.journal.write(level);
}
