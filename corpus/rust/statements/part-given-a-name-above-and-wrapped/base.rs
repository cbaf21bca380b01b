fn forecast(station: &Station) -> Forecast {
    publish(predict(station, 3), station.name)
}
