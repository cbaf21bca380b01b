def refresh(self, station):
    started = now()
    if station not in self.cache:
        url = self.url_of(station)
        page = self.session.get(url, timeout=5)
        self.last_page = page

        # The gauge is read once a minute.
        levels = parse(page)
        self.cache[station] = levels
    return levels
