class Client:
    def get(self, path, timeout=5) -> Reply:
        return self.session.get(path)
