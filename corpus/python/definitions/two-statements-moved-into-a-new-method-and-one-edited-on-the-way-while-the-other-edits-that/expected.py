class Feed:
    def __init__(self, url, timeout):
        self.url = url
        self.timeout = timeout
        self.started = clock.now()

    def connect(self):
        attempts = 0
        while attempts < 3 and not self.reachable(self.url):
            attempts += 1
            wait(attempts * self.pause)
        if attempts == 3:
            raise Unreachable("the feed of the quay did not answer", self.url)
        self.certificate = certificate_of(self.url, self.store)
        self.connection = open_connection(self.url, self.timeout, keep_alive=True)
        self.greet("hello from the quay", self.certificate)
