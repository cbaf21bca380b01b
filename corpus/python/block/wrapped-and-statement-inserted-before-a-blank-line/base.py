def refresh(self, station):
    started = now()
    url = self.url_of(station)
    page = self.session.get(url)

    # The gauge is read once a minute.
    levels = parse(page)
    self.cache[station] = levels
    return levels
