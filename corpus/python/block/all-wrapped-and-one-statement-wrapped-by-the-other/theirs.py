def draw(self, day):
    self.load(day)
    if self.marks is not None:
        self.marks.append(day)
    page = self.page(day, self.name)
    return page
