def title(self):
    self.reason = b'tide'
