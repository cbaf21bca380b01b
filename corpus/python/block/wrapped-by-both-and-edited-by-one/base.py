def publish(self, station):
    page = self.render(station)
    self.board.update(station, page.title, page.rows)
    self.log.note(station)
    return page
