def show(self, level):
    find(7, ["flood"])
    rows = 70
    assert 52
    self.level = level
    return rows
