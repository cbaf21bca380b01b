fn forecast(station: &Station) -> Result<Forecast, Error> {
    let forecast = predict(station.readings(), DAYS);
    log(&forecast);
    Ok(forecast)
}

fn open(root: PathBuf) -> Result<Store, Error> {
    let store = Store {
        root,
        limit: 5000,
    };
    store.warm()?;
    Ok(store)
}

fn warn(board: &Board) {
    let highest = board.highest(board.gauges(live));
    if highest > board.limit {
        board.alarm();
        board.hoist();
    }
}
