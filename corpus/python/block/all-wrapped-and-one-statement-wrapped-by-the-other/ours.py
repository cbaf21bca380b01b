def draw(self, day):
    if board.ready:
        self.load(day)
        self.marks.append(day)
        page = self.page(day, self.name)
        return page
