def forecast(station):
    return publish(predict(station, days=3), unit="m")
