fn forecast(station: &Station) -> Forecast {
    let forecast = predict(station, 3);
    publish(forecast, station.name)
}
