def refresh(self, station):
    started = now()

    with self.lock:
        # Where the gauge is published.
        feed = FEEDS[station]
        page = self.session.get(feed)
        levels = parse(page)
    return levels
