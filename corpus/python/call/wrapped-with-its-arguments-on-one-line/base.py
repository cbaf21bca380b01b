forecast = predictor.predict(station, begin=today, days=7)
board.show(forecast)
