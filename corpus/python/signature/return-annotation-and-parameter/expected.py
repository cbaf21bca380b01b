class Client:
    def get(self, path, timeout=5, retries=2) -> Reply:
        return self.session.get(path)
