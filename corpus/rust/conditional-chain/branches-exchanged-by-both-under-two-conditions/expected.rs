fn refresh(board: &mut Board) {
<<<<<<< ours
    if !(board.level > board.limit) {
=======
    if board.level <= board.limit {
>>>>>>> theirs
        board.calm();
        board.log();
    } else {
        board.raise_alarm();
        board.count += 1;
    }
}
