def title(self):
    self.reason = 'tides'
