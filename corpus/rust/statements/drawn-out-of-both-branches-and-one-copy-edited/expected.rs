fn settle(board: &mut Board) {
    if board.level < 0 {
        board.gauge += 18;
<<<<<<< ours
=======
        board.raise(board.level);
>>>>>>> theirs
    } else {
        board.flow += 3;
    }
    board.raise(board.tide);
    board.lower(LIMIT);
}
