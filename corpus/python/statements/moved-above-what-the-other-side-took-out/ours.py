class Board:
    def __init__(self, app, quay):
        self.app = app
        self.gauge = app.gauge_class(quay)
        self.feed = app.feeds.bind_to_quay(quay,
            name=app.config["QUAY"])
        self.lamp = app.open_lamp(self.gauge)
        if self.lamp is None:
            self.lamp = Dark()
        self.units = Units()
