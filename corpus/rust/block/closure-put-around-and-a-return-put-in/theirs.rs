fn refresh(board: &mut Board) {
    let level = board.level();
    board.show(level);
    if level < 2 {
        return;
    }
    board.log(level);
    board.settle();
}
