def refresh(self, station):
    started = now()

    with self.lock:
        # Where the gauge is published.
        url = self.url_of(station)
        page = self.session.get(url)
        levels = parse(page)
    return levels
