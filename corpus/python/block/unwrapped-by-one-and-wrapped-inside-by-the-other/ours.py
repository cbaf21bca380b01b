def publish(self, day):
    page = self.page(day)
    self.board.show(page)
    return day
