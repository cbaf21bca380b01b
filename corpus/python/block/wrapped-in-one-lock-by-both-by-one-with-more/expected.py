def draw(self, day):
<<<<<<< ours
    with self.lock(day):
        self.load(day)
=======
    self.load(day)
    with self.lock(day, wait=True):
>>>>>>> theirs
        self.marks.append(day)
    page = self.page(day, self.name)
    return page
