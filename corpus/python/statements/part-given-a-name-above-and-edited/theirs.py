def forecast(station):
    return publish(predict(station, days=5), unit="ft")
