class Client:
<<<<<<< ours
    def get(self, path, timeout=8, retries=2):
=======
    def get(self, path, timeout=3, retries=2):
>>>>>>> theirs
        return self.session.get(path)
