class Client:
    def get(self, path, timeout=3, retries=2):
        return self.session.get(path)
