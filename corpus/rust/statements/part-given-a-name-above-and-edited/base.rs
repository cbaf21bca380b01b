fn forecast(station: &Station) -> Result<Forecast, Error> {
    Ok(predict(station.readings(), 3))
}

fn open(root: PathBuf) -> Result<Store, Error> {
    Ok(Store {
        root,
        limit: 1000,
    })
}

fn warn(board: &Board) {
    if board.highest(board.gauges()) > board.limit {
        board.alarm();
    }
}
