fn refresh(board: &mut Board) {
    if board.level > board.limit {
        board.raise_alarm();
        board.count += 2;
    } else {
        board.calm();
        board.log_calm();
    }
}
