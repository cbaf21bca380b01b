forecast = predictor.predict(
    station, begin=today, days=7, step=15
)
board.show(forecast)
