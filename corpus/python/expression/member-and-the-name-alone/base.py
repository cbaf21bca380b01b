tides = load(path=self.path, unit='m')
