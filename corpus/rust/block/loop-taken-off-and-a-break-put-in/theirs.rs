fn refresh(board: &mut Board) {
    while let Some(station) = board.next() {
        for turn in 0..1 {
            let level = board.level(station);
            board.show(station, level);
            if level < 2 {
                break;
            }
            board.log(station);
        }
        board.settle();
    }
}
