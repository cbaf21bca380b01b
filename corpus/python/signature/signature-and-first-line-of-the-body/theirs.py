def predict(station, begin, days=7):
    model = load_model(station.code)
    return model.run(begin, days)
