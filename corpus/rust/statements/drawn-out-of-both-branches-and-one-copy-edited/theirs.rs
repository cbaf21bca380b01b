fn settle(board: &mut Board) {
    if board.level < 0 {
        board.gauge += 18;
        board.raise(board.level);
        board.lower(LIMIT);
    } else {
        board.flow += 3;
        board.raise(board.tide);
        board.lower(LIMIT);
    }
}
