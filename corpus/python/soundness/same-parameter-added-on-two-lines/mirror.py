def predict(
    station,
    begin,
    surge=None,
    days=7,
    step=15,
):
    return Model(station).run(begin, days, step)
