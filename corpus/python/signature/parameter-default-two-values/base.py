class Client:
    def get(self, path, timeout=5):
        return self.session.get(path)
