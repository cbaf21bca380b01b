def title(self):
    self.reason = u'Started by(%s)' % name
