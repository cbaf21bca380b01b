fn refresh(board: &mut Board) {
    let level = board.level();
    board.show(level);
    board.log(level);
    board.settle();
}
