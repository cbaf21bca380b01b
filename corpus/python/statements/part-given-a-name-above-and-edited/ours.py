def forecast(station):
    forecast = predict(station, days=3)
    log(forecast)
    return publish(forecast, unit="m")
