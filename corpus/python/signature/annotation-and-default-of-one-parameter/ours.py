class Client:
    def get(self, path, timeout=8):
        return self.session.get(path)
