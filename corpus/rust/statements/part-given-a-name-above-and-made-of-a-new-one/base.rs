fn publish(board: &mut Board, station: &Station) {
    board.open();
    board.show(station.name, predict(station, DAYS), board.unit);
}
