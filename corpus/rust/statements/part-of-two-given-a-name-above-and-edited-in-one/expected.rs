fn publish(board: &mut Board, station: &Station) {
    let forecast = predict(station, 3);
<<<<<<< ours
    board.show(station.name, forecast, board.unit);
=======
    board.show(station.name, predict(station, 5), board.unit);
>>>>>>> theirs
    board.store(station.number, forecast, board.datum);
}
