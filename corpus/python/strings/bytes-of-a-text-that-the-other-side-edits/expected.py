def title(self):
<<<<<<< ours
    self.reason = b'tide'
=======
    self.reason = 'tides'
>>>>>>> theirs
