def predict(
    station,
    begin,
    days=7,
    step=15,
    surge=None,
):
    return Model(station).run(begin, days, step)
