fn publish(board: &mut Board, station: &Station) {
    board.open();
<<<<<<< ours
    let forecast = predict(station, DAYS);
    board.show(station.name, forecast, board.unit);
=======
    let days = board.days();
    board.show(station.name, predict(station, days), board.unit);
>>>>>>> theirs
}
