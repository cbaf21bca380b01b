class A:
    def tick(self, url):
        return self.client.get(url, timeout=5)
