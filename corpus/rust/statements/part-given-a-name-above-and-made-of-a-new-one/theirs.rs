fn publish(board: &mut Board, station: &Station) {
    board.open();
    let days = board.days();
    board.show(station.name, predict(station, days), board.unit);
}
