def publish(self, station):
    page = self.render(station)
    if self.changed(station):
        self.board.update(station, page.title, page.rows)
        self.log.note(station)
    return page
