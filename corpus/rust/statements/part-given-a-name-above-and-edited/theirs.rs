fn forecast(station: &Station) -> Result<Forecast, Error> {
    Ok(predict(station.readings(), DAYS))
}

fn open(root: PathBuf) -> Result<Store, Error> {
    Ok(Store {
        root,
        limit: 5000,
    })
}

fn warn(board: &Board) {
    if board.highest(board.gauges(live)) > board.limit {
        board.alarm();
        board.hoist();
    }
}
