fn refresh(board: &mut Board) {
    if board.level > board.limit {
        board.raise_alarm();
        board.count += 1;
    } else {
        board.calm();
        board.log();
    }
}
