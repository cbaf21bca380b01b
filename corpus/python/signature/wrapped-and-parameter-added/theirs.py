def predict(station, begin, days=7, surge=None):
    model = load_model(station)
    return model.run(begin, days)
