class Board:
    def __init__(self, app, quay):
        self.app = app
        self.feed = app.feeds.bind_to_quay(quay,
            name=app.config["QUAY"])
        self.gauge = app.gauge_class(quay)
        self.units = Units()
