fn refresh(board: &mut Board) {
    while let Some(station) = board.next() {
        let level = board.level(station);
        board.show(station, level);
<<<<<<< ours
=======
        if level < 2 {
            break;
        }
>>>>>>> theirs
        board.log(station);
        board.settle();
    }
}
