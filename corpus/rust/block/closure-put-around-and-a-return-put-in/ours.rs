fn refresh(board: &mut Board) {
    let mut publish = || {
        let level = board.level();
        board.show(level);
        board.log(level);
    };
    publish();
    board.settle();
}
