fn publish(board: &mut Board, level: f64) {
<<<<<<< ours
    if board.ready() {
        board.show(level);
        board.journal.write(level);
    }
=======
    board.check(level);
    board.show(level);
    board.journal.write(level);
>>>>>>> theirs
}
