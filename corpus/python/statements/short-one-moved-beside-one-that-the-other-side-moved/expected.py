def show(self, level):
    rows = 70
    find(7, ["flood"])
    assert 52
    self.level = level
    return rows
