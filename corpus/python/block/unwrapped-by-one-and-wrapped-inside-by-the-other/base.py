def publish(self, day):
    if not self.ready:
        page = self.page(day)
        self.board.show(page)
    return day
