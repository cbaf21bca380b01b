fn refresh(board: &mut Board) {
<<<<<<< ours
    if board.level <= board.limit {
=======
    if board.level > board.limit + 2 {
        board.raise_alarm();
        board.count += 2;
    } else {
>>>>>>> theirs
        board.calm();
        board.log();
    } else {
        board.raise_alarm();
        board.count += 1;
    }
}
