fn publish(board: &mut Board) {
    for step in 0..3 {
        board.raise(step);
        board.paint();
        board.level = step;
    }
}
