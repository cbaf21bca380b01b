class A:
    def tick(self, url):
<<<<<<< ours
        return self.fetch(url)
=======
        return self.client.get(url, timeout=5)
>>>>>>> theirs

    def fetch(self, url):
        return self.client.get(url)
