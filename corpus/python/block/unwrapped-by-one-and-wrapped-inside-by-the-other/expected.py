def publish(self, day):
    page = self.page(day)
    with self.lock:
        self.board.show(page)
    return day
