fn publish(board: &mut Board, station: &Station) {
    board.show(station.name, predict(station, 5), board.unit);
    board.store(station.number, predict(station, 3), board.datum);
}
