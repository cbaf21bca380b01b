class A:
    def tick(self, url):
        return self.fetch(url)

    def fetch(self, url):
        return self.client.get(url)
