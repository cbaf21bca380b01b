def draw(self, day):
    with self.lock(day):
        self.load(day)
        self.marks.append(day)
    page = self.page(day, self.name)
    return page
