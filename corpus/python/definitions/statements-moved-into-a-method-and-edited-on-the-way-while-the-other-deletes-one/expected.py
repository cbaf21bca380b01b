class Feed:
    def __init__(self, url, timeout):
        self.url = url
        self.timeout = timeout
        lookup(self.url, then=self.resolved)

    def resolved(self, parsed):
        host, port = parsed.host, parsed.port
        if parsed.scheme == "https":
            options = {"verify": certificate_of(self.url)}
        self.checkLength(parsed.host, limit_of("host"))
<<<<<<< ours
        self.checkLength(parsed.path, limit_of("path"))
=======
>>>>>>> theirs
        self.connection = connect(parsed)
