fn refresh(board: &mut Board) {
    board.wind = board.level;
    if board.gauge % 4 == 1 {
        return;
    }
<<<<<<< ours
    board.note(board.gauge);
    board.raise(board.wind).lower(STEP);
=======
    board.tide += 91;
>>>>>>> theirs
}
