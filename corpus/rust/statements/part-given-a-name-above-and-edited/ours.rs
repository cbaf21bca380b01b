fn forecast(station: &Station) -> Result<Forecast, Error> {
    let forecast = predict(station.readings(), 3);
    log(&forecast);
    Ok(forecast)
}

fn open(root: PathBuf) -> Result<Store, Error> {
    let store = Store {
        root,
        limit: 1000,
    };
    store.warm()?;
    Ok(store)
}

fn warn(board: &Board) {
    let highest = board.highest(board.gauges());
    if highest > board.limit {
        board.alarm();
    }
}
