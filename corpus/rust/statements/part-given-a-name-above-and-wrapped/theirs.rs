fn forecast(station: &Station) -> Forecast {
    publish(checked(predict(station, 3)), station.name)
}
