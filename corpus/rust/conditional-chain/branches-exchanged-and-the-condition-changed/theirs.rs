fn refresh(board: &mut Board) {
    if board.level > board.limit + 2 {
        board.raise_alarm();
        board.count += 2;
    } else {
        board.calm();
        board.log();
    }
}
