class Client:
    def get(self, path, timeout: float = 8):
        return self.session.get(path)
