class Feed:
    def __init__(self, url, timeout):
        self.url = url
        if url.startswith("quay"):
            self.journal = open_journal("quay", "a")
        for station in stations_near(url):
            self.register(station, 15)
        self.certificate = certificate_of(self.url, self.store)
        self.connection = open_connection(self.url, timeout)
        self.started = clock.now()
