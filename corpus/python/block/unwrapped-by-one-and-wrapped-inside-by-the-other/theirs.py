def publish(self, day):
    if not self.ready:
        page = self.page(day)
        with self.lock:
            self.board.show(page)
    return day
