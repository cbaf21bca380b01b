fn publish(board: &mut Board) {
    for turn in 0..3 {
        board.raise(turn);
        board.paint();
        let turn = turn + 7;
        board.level = turn;
    }
}
