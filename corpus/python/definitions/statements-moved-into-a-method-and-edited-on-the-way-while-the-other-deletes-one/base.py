class Feed:
    def __init__(self, url, timeout):
        self.url = url
        parsed = split_address(self.url)
        host, port = parsed.host, parsed.port
        if parsed.scheme == "https":
            options = {"verify": certificate_of(self.url)}
        self.check_length(parsed.host, limit_of("host"))
        self.check_length(parsed.path, limit_of("path"))
        self.connection = connect(parsed)
