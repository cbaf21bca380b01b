def forecast(station):
    forecast = predict(station, days=5)
    log(forecast)
    return publish(forecast, unit="ft")
