def publish(self, station):
    page = self.render(station)
    if self.changed(station):
        yield self.board.update(station, page.title, page.rows)
    return page
