def title(self):
    self.reason = 'Started by(%s)' % name
