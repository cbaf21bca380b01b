fn publish(board: &mut Board, station: &Station) {
    board.open();
    let forecast = predict(station, DAYS);
    board.show(station.name, forecast, board.unit);
}
