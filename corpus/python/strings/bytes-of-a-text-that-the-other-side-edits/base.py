def title(self):
    self.reason = 'tide'
