class Client:
    def get(self, path, timeout: float = 5):
        return self.session.get(path)
