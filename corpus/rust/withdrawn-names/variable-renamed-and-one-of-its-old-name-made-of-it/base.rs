fn publish(board: &mut Board) {
    for turn in 0..3 {
        board.raise(turn);
        board.paint();
        board.level = turn;
    }
}
