class Board:
    def __init__(self, app, quay):
        self.app = app
        self.gauge = app.gauge_class(quay)
        self.feed = app.create_feed(self.gauge)
        self.units = Units()
