def title(self):
    self.reason = "Triggered(%s)" % name
