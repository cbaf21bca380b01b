class Store:
    def load(self, rows):
        for row in rows:
            reading = self.readings[row.key] = copy(row.values)
            reading["files"] = []
            reading["notes"] = []
            reading["files"].append(row.name)

    def add(self, key, station, height, files, notes, pilot=None):
        self.readings[key] = dict(
            key=key,
            station=station,
            height=height,
            tide=tide,
            source=source,
            category=category,
            branch=branch,
            pilots=[],
            files=files,
            notes=notes)

<<<<<<< ours
        if pilot:
            reading["pilots"].append(pilot)

        returns(key)
=======
        return key
>>>>>>> theirs
