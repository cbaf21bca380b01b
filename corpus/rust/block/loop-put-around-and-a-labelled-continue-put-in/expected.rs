fn refresh(board: &mut Board) {
    'stations: while let Some(station) = board.next() {
        for turn in 0..1 {
            let level = board.level(station);
            board.show(station, level);
            if level < 2 {
                continue 'stations;
            }
            board.log(station);
        }
        board.settle();
    }
}
