fn publish(board: &mut Board, station: &Station) {
    let forecast = predict(station, 3);
    board.show(station.name, forecast, board.unit);
    board.store(station.number, forecast, board.datum);
}
