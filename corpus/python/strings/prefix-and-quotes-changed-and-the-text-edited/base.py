def title(self):
    self.reason = u'Triggered(%s)' % name
