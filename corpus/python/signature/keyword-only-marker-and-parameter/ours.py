def predict(station, begin, *, days=7):
    model = load_model(station)
    return model.run(begin, days)
