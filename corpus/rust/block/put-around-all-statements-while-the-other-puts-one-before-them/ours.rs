fn publish(board: &mut Board, level: f64) {
    if board.ready() {
        board.show(level);
        board.journal.write(level);
    }
}
