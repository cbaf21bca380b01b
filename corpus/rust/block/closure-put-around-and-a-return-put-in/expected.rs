fn refresh(board: &mut Board) {
    let mut publish = || {
        let level = board.level();
        board.show(level);
<<<<<<< ours
=======
        if level < 2 {
            return;
        }
>>>>>>> theirs
        board.log(level);
    };
    publish();
    board.settle();
}
