def draw(self, day):
    self.load(day)
    with self.lock(day, wait=True):
        self.marks.append(day)
    page = self.page(day, self.name)
    return page
