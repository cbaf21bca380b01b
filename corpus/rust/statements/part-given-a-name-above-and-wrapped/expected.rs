fn forecast(station: &Station) -> Forecast {
    let forecast = predict(station, 3);
<<<<<<< ours
    publish(forecast, station.name)
=======
    publish(checked(predict(station, 3)), station.name)
>>>>>>> theirs
}
